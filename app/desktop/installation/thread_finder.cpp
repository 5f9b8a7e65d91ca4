#include "app/desktop/installation/thread_finder.h"

#include "analysis/connections/thread_size.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/words/number_words.h"

#include <QHBoxLayout>

namespace headmark {

namespace {

constexpr NumberEntry::Range kDiameter_mm{1.0, 400.0, true};

QString one(const ThreadCandidate& candidate) {
    const QString nominal = quantityWords("mm", candidate.nominal.inMillimetres(), screenPhrasing());
    return ThreadFinder::tr("%1 (%2, %3 threads an inch)")
        .arg(QString::fromStdString(candidate.size), nominal,
             screenPhrasing().locale.toString(candidate.threadsPerInch, 'g', 3));
}

} // namespace

ThreadFinder::ThreadFinder(QWidget* parent)
    : Card(tr("Which thread is it?"), parent), diameter_(new NumberEntry), side_(new QComboBox),
      found_(wrappedLabel(tr("Measure across the thread with a caliper."))) {
    diameter_->setRange(kDiameter_mm);
    diameter_->setAccessibleName(tr("Measured diameter in mm"));
    diameter_->setToolTip(tr("Over the crests of a male thread, or across the crests of a female one."));
    side_->addItems({tr("male"), tr("female")});
    side_->setAccessibleName(tr("Side of the thread"));
    auto* line = new QHBoxLayout;
    line->addWidget(diameter_, 1);
    line->addWidget(faintLabel(tr("mm")));
    line->addWidget(side_);
    content().addLayout(line);
    content().addWidget(found_);
    connect(diameter_, &NumberEntry::entered, this, &ThreadFinder::look);
    connect(side_, &QComboBox::activated, this, &ThreadFinder::look);
}

void ThreadFinder::look() {
    const auto measured = diameter_->figure();
    if (!measured) {
        found_->setText(tr("Measure across the thread with a caliper."));
        return;
    }
    const ThreadSizeFinding finding =
        threadSizeFromDiameter(Length::fromMillimetres(*measured),
                               side_->currentIndex() == 1 ? ThreadSide::female : ThreadSide::male);
    QStringList sizes;
    for (const ThreadCandidate& candidate : finding.candidates)
        sizes << one(candidate);
    using State = ThreadSizeFinding::State;
    if (finding.state == State::sure && !sizes.isEmpty())
        found_->setText(
            tr("Size %1. Count the threads to be sure that it is a pipe thread.").arg(sizes.front()));
    else if (finding.state == State::ambiguous)
        found_->setText(tr("It may be %1; count the threads over an inch.").arg(sizes.join(tr(" or "))));
    else
        found_->setText(
            tr("No pipe thread has that diameter; the nearest are %1.").arg(sizes.join(tr(" and "))));
}

} // namespace headmark
