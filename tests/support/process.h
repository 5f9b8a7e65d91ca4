#pragma once
// Runs a program as a user would and keeps what it said. Output goes through files, so that nothing can
// block.

#include <string>
#include <vector>

namespace headmark::test {

struct ProcessResult {
    int status = -1; // exit status; -1 when ended by a signal or by the time limit
    std::string out, messages;
    double seconds = 0.0;
    long peakKilobytes = 0;
};

// `out`: a path for standard output instead of a file of ours ("/dev/full").
[[nodiscard]] ProcessResult runProcess(const std::vector<std::string>& command, const std::string& out = {},
                                       double limitSeconds = 60.0);

// A folder that is removed with the object.
class TemporaryFolder {
  public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }
    std::string write(const std::string& name, const std::string& text) const;

  private:
    std::string path_;
};

[[nodiscard]] std::string readText(const std::string& path);

} // namespace headmark::test
