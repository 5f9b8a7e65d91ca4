#pragma once
// Work off the screen's thread of which only the newest counts: a slider or an edit asks faster than answers
// come. One thread; a task that has not begun when the next is asked is dropped.

#include <QObject>

#include <functional>
#include <memory>

namespace headmark {

class LatestOnly : public QObject {
    Q_OBJECT

  public:
    // What to do with the outcome, in the thread of this object.
    using Delivery = std::function<void()>;
    using Task = std::function<Delivery()>;

    explicit LatestOnly(QObject* parent = nullptr);
    ~LatestOnly() override; // waits for the task being done; nothing is delivered any more

    void ask(Task task);
    // What is asked already will not be delivered.
    void forget() { ++epoch_; }

  private:
    class Thread;
    long epoch_ = 0;
    std::unique_ptr<Thread> thread_;
};

} // namespace headmark
