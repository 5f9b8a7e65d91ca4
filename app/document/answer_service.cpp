#include "app/document/answer_service.h"

#include "app/document/answer_maker.h"
#include "app/document/document_codes.h"

#include <QThread>

#include <chrono>
#include <condition_variable>
#include <mutex>

namespace headmark {

namespace {

// The whole waits until nothing was edited for so long: while a pin is dragged each edit is answered at once
// and no half-done whole stands in its way.
constexpr std::chrono::milliseconds kQuiet{120};

} // namespace

class AnswerService::Worker : public QThread {
  public:
    explicit Worker(AnswerService& service) : service_(service) { start(); }
    ~Worker() override {
        {
            const std::lock_guard lock(mutex_);
            ending_ = true;
            stop_ = true;
        }
        wake_.notify_one();
        wait();
    }

    void post(AnswerQuestion question, long number) {
        {
            const std::lock_guard lock(mutex_);
            next_ = std::move(question);
            number_ = number;
            stop_ = true;
        }
        wake_.notify_one();
    }

  protected:
    void run() override {
        AnswerMaker maker; // pages are opened in this thread
        std::unique_lock lock(mutex_);
        while (true) {
            wake_.wait(lock, [this] { return isSuperseded(); });
            if (ending_) return;
            const AnswerQuestion question = std::move(*next_);
            const long number = number_;
            next_.reset();
            stop_ = false;
            lock.unlock();
            const auto quick = guarded(question, [&] { return maker.quick(question); });
            const bool more = quick->stale && maker.wantsWhole();
            deliver(quick, number, !more);
            lock.lock();
            if (!more || wake_.wait_for(lock, kQuiet, [this] { return isSuperseded(); })) continue;
            lock.unlock();
            if (const auto whole = guarded(question, [&] { return maker.whole(stop_); }))
                deliver(whole, number, true);
            lock.lock();
        }
    }

  private:
    [[nodiscard]] bool isSuperseded() const { return ending_ || next_.has_value(); }

    // What a library throws must not take the window with it.
    template <class Make>
    [[nodiscard]] std::shared_ptr<const Answer> guarded(const AnswerQuestion& question, const Make& make) {
        try {
            return make();
        } catch (const std::exception& thrown) {
            auto answer = std::make_shared<Answer>();
            answer->workspace = question.workspace;
            answer->shown = question.shown;
            answer->stale = false;
            answer->errors.push_back(
                {std::string(code::kCannotCompute), "", "", {{"why", std::string(thrown.what())}}});
            return answer;
        }
    }

    void deliver(std::shared_ptr<const Answer> answer, long number, bool isLast) {
        // Queued: runs in the service's thread, and not at all once the service is gone.
        QMetaObject::invokeMethod(
            &service_,
            [service = &service_, answer = std::move(answer), number, isLast] {
                service->receive(answer, number, isLast);
            },
            Qt::QueuedConnection);
    }

    AnswerService& service_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::optional<AnswerQuestion> next_;
    long number_ = 0;
    bool ending_ = false;
    std::atomic<bool> stop_ = false;
};

AnswerService::AnswerService(Document& document, QObject* parent)
    : QObject(parent), latest_(std::make_shared<const Answer>()), document_(document),
      worker_(std::make_unique<Worker>(*this)) {
    connect(&document_, &Document::workspaceChanged, this, [this] {
        ++revision_;
        post();
    });
    if (document_.isOpen()) post();
}

AnswerService::~AnswerService() = default;

bool AnswerService::isBusy() const { return busy_; }

void AnswerService::show(Shown shown) {
    if (shown.pump == shown_.pump && shown.caseIndex == shown_.caseIndex) return;
    shown_ = shown;
    post();
}

void AnswerService::showChart(const std::string& path) {
    if (path == shownChart_) return;
    shownChart_ = path;
    post();
}

void AnswerService::post() {
    worker_->post({document_.workspace(), revision_, document_.jobNumber(), shown_, shownChart_}, ++posted_);
    setBusy(true);
}

void AnswerService::receive(std::shared_ptr<const Answer> answer, long number, bool isLast) {
    // Nothing open: what was still being answered is of no interest.
    latest_ = document_.isOpen() ? std::move(answer) : std::make_shared<const Answer>();
    emit answered();
    if (isLast && number == posted_) setBusy(false);
}

void AnswerService::setBusy(bool busy) {
    if (busy == busy_) return;
    busy_ = busy;
    emit busyChanged(busy);
}

} // namespace headmark
