#include "analysis/job/json_document.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/json_sax.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace headmark {

namespace {

class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return number_; }

  private:
    int number_;
};

Error fileError(std::string_view code, const std::string& path, Facts facts = {}) {
    return {std::string(code), path, "", std::move(facts)};
}

Error systemError(const std::string& path, int number) {
    if (number == ENOENT || number == ENOTDIR) return fileError(code::kNoSuchFile, path);
    return fileError(code::kCannotRead, path, {{"why", std::string(std::strerror(number))}});
}

// Empty when the file may be opened and read.
std::optional<Error> refusal(const struct stat& status, const std::string& path, std::size_t greatestBytes) {
    if (S_ISDIR(status.st_mode)) return fileError(code::kIsFolder, path);
    if (!S_ISREG(status.st_mode)) return fileError(code::kNotRegularFile, path);
    if (status.st_size > static_cast<off_t>(greatestBytes)) {
        constexpr double kMegabyte = 1024.0 * 1024.0;
        return fileError(code::kFileTooLarge, path,
                         {{"size_MB", static_cast<double>(status.st_size) / kMegabyte},
                          {"limit_MB", static_cast<double>(greatestBytes) / kMegabyte}});
    }
    return std::nullopt;
}

Result<std::string> readAll(int descriptor, std::size_t expected, const std::string& path,
                            std::size_t greatestBytes) {
    std::string bytes;
    bytes.reserve(expected);
    std::array<char, 1 << 16> block{};
    for (;;) {
        const ssize_t got = ::read(descriptor, block.data(), block.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return systemError(path, errno);
        if (got == 0) return bytes;
        bytes.append(block.data(), static_cast<std::size_t>(got));
        // A file that grows while it is read.
        if (bytes.size() > greatestBytes)
            return fileError(code::kCannotRead, path, {{"why", std::string("EFBIG")}});
    }
}

bool plainKey(std::string_view key) {
    return !key.empty() && std::all_of(key.begin(), key.end(), [](unsigned char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
               c == '-';
    });
}

} // namespace

Result<std::string> readRegularFile(const std::string& path, std::size_t greatestBytes) {
    struct stat status {};
    // Asked before opening: opening some devices has effects.
    if (::stat(path.c_str(), &status) != 0) return systemError(path, errno);
    if (auto error = refusal(status, path, greatestBytes)) return *error;
    // Non-blocking, and asked again: the file may have been replaced by a pipe in between.
    const Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (descriptor.number() < 0 || ::fstat(descriptor.number(), &status) != 0)
        return systemError(path, errno);
    if (auto error = refusal(status, path, greatestBytes)) return *error;
    return readAll(descriptor.number(), static_cast<std::size_t>(status.st_size), path, greatestBytes);
}

Result<nlohmann::ordered_json> parseJson(std::string_view text, const std::string& fileName) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        return fileError(code::kEmptyFile, fileName);
    if (const auto bad = firstInvalidUtf8(text)) {
        return fileError(code::kInvalidUtf8, fileName, positionFacts(text, *bad));
    }
    DocumentBuilder builder(text, fileName);
    if (!nlohmann::ordered_json::sax_parse(text, &builder)) return builder.error();
    return builder.takeDocument();
}

Result<nlohmann::ordered_json> readJsonFile(const std::string& path) {
    const auto bytes = readRegularFile(path);
    if (!bytes) return bytes.error();
    return parseJson(*bytes, path);
}

std::string folderOf(const std::string& path) { return std::filesystem::path(path).parent_path().string(); }

std::string pathFrom(const std::string& folder, const std::string& path) {
    return (std::filesystem::path(folder) / path).string(); // an absolute path stays as it is
}

std::string documentFormat(const nlohmann::ordered_json& document) {
    if (!document.is_object()) return {};
    const auto found = document.find("format");
    return found != document.end() && found->is_string() ? found->get<std::string>() : std::string();
}

std::string placeOfKey(const std::string& object, std::string_view key) {
    constexpr std::size_t kLongestShown = 60;
    std::string shown = shortened(key, kLongestShown);
    if (!plainKey(key)) {
        return object + "[" +
               nlohmann::ordered_json(shown).dump(-1, ' ', false,
                                                  nlohmann::ordered_json::error_handler_t::replace) +
               "]";
    }
    return object.empty() ? shown : object + "." + shown;
}

std::string placeOfItem(const std::string& list, std::size_t index) {
    return list + "[" + std::to_string(index) + "]";
}

} // namespace headmark
