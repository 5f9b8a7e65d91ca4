#include "app/document/page_shelf.h"

#include "analysis/job/json_document.h"

#include <QDateTime>
#include <QFileInfo>

#include <algorithm>

namespace headmark {

namespace {

constexpr std::size_t kMostPages = 3;
constexpr std::size_t kSmall_bytes = std::size_t{96} * 1024 * 1024; // some ten brochure pages at 150 dpi

std::size_t sizeOf(const PageShelf::Held& held) { return held.page->grey.size() + held.page->colour.size(); }

} // namespace

PageKey keyOf(const ChartPage& chart) {
    PageKey key;
    key.bytes = chart.bytes;
    key.page = chart.page.value_or(1);
    key.dpi = chart.dpi;
    if (chart.bytes) return key;
    key.path = pathFrom(chart.folder, chart.path);
    const QFileInfo file(QString::fromStdString(key.path));
    key.changed_ms = file.exists() ? file.lastModified().toMSecsSinceEpoch() : 0;
    key.size = file.exists() ? file.size() : -1;
    return key;
}

Result<PageShelf::Held*> PageShelf::held(const ChartPage& chart) {
    PageKey key = keyOf(chart);
    const auto found =
        std::find_if(held_.begin(), held_.end(), [&](const Held& one) { return one.key == key; });
    if (found != held_.end()) {
        held_.splice(held_.begin(), held_, found);
        return &held_.front();
    }
    auto page = source_->open(chart);
    if (!page) return page.error();
    held_.push_front({std::move(key), *page, std::make_unique<ChartReader>(*page)});
    makeRoom();
    return &held_.front();
}

bool PageShelf::holds(const PageKey& key) const {
    return std::any_of(held_.begin(), held_.end(), [&](const Held& one) { return one.key == key; });
}

void PageShelf::makeRoom() {
    std::size_t bytes = 0;
    for (const Held& one : held_)
        bytes += sizeOf(one);
    while (held_.size() > kMostPages && bytes > kSmall_bytes) {
        bytes -= sizeOf(held_.back());
        held_.pop_back();
    }
}

} // namespace headmark
