#include "app/pages/watched_bytes.h"

#include <algorithm>
#include <cstring>

namespace headmark {

WatchedBytes::WatchedBytes(std::string_view bytes) : bytes_(bytes) {
    // Unbuffered, so that what is asked here is what the decoder asked.
    open(QIODevice::ReadOnly | QIODevice::Unbuffered);
}

qint64 WatchedBytes::readData(char* data, qint64 wanted) {
    const qint64 got = std::clamp<qint64>(size() - pos(), 0, std::max<qint64>(wanted, 0));
    if (got > 0) std::memcpy(data, bytes_.data() + pos(), static_cast<std::size_t>(got));
    gotLessThanAsked_ = gotLessThanAsked_ || got < wanted;
    askedBeyondEnd_ = askedBeyondEnd_ || (wanted > 0 && got == 0);
    return got;
}

qint64 WatchedBytes::writeData(const char*, qint64) { return -1; }

} // namespace headmark
