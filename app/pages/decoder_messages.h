#pragma once
// What the decoders say while one page is opened, on this thread: kept instead of written to stderr, since
// our own sentence follows. Messages of other threads go where they went before. Libraries below Qt:
// libtiff's messages are caught as well; libpng's errors cannot be (see png_check.h).

#include <string>
#include <vector>

namespace headmark {

class DecoderMessages {
  public:
    DecoderMessages();
    ~DecoderMessages();
    DecoderMessages(const DecoderMessages&) = delete;
    DecoderMessages& operator=(const DecoderMessages&) = delete;

    // To be called once Qt has loaded its TIFF plugin, before it reads.
    static void catchTiffMessages();

    [[nodiscard]] const std::vector<std::string>& fromQt() const { return fromQt_; }
    [[nodiscard]] bool tiffErrors() const { return tiffErrors_; }

  private:
    friend struct DecoderMessageSink;

    std::vector<std::string> fromQt_;
    bool tiffErrors_ = false;
    DecoderMessages* outer_ = nullptr;
};

} // namespace headmark
