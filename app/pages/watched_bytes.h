#pragma once
// Bytes in memory as a device that notices when a decoder asks for more than there are. Some decoders fill
// the rest of a picture with grey or leave it blank then, and report success.

#include <QIODevice>

#include <string_view>

namespace headmark {

class WatchedBytes : public QIODevice {
  public:
    // `bytes` must outlive the device.
    explicit WatchedBytes(std::string_view bytes);

    // A read at the very end, which got nothing.
    [[nodiscard]] bool askedBeyondEnd() const { return askedBeyondEnd_; }
    // A read that got less than it asked for; readers in blocks do so at the end of every file.
    [[nodiscard]] bool gotLessThanAsked() const { return gotLessThanAsked_; }

    [[nodiscard]] qint64 size() const override { return static_cast<qint64>(bytes_.size()); }

  protected:
    qint64 readData(char* data, qint64 wanted) override;
    qint64 writeData(const char* data, qint64 length) override;

  private:
    std::string_view bytes_;
    bool askedBeyondEnd_ = false, gotLessThanAsked_ = false;
};

} // namespace headmark
