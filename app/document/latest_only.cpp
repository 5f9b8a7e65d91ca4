#include "app/document/latest_only.h"

#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace headmark {

class LatestOnly::Thread {
  public:
    explicit Thread(LatestOnly& owner) : owner_(owner), thread_([this] { run(); }) {}

    ~Thread() {
        {
            const std::lock_guard lock(mutex_);
            ends_ = true;
        }
        wake_.notify_one();
        thread_.join();
    }

    void post(long epoch, Task task) {
        {
            const std::lock_guard lock(mutex_);
            next_ = {epoch, std::move(task)};
        }
        wake_.notify_one();
    }

  private:
    void run() {
        for (;;) {
            std::pair<long, Task> asked;
            {
                std::unique_lock lock(mutex_);
                wake_.wait(lock, [this] { return ends_ || next_; });
                if (ends_) return;
                asked = std::move(*next_);
                next_.reset();
            }
            Delivery delivery = asked.second();
            LatestOnly* owner = &owner_; // outlives this thread, and drops what is queued when it goes
            QMetaObject::invokeMethod(
                owner,
                [owner, epoch = asked.first, delivery = std::move(delivery)] {
                    if (epoch == owner->epoch_) delivery();
                },
                Qt::QueuedConnection);
        }
    }

    LatestOnly& owner_;
    std::mutex mutex_;
    std::condition_variable wake_;
    bool ends_ = false;
    std::optional<std::pair<long, Task>> next_;
    std::thread thread_; // last: what it uses is there before it starts
};

LatestOnly::LatestOnly(QObject* parent) : QObject(parent), thread_(std::make_unique<Thread>(*this)) {}

LatestOnly::~LatestOnly() = default;

void LatestOnly::ask(Task task) { thread_->post(epoch_, std::move(task)); }

} // namespace headmark
