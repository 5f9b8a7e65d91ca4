#include "tests/support/process.h"

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace headmark::test {

namespace {

[[noreturn]] void become(const std::vector<std::string>& command, const std::string& out,
                         const std::string& messages) {
    std::vector<char*> argv;
    for (const std::string& a : command)
        argv.push_back(const_cast<char*>(a.c_str()));
    argv.push_back(nullptr);
    const int o = open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int e = open(messages.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int i = open("/dev/null", O_RDONLY);
    if (o < 0 || e < 0 || i < 0) _exit(126);
    dup2(i, 0);
    dup2(o, 1);
    dup2(e, 2);
    execv(argv[0], argv.data());
    _exit(127);
}

} // namespace

ProcessResult runProcess(const std::vector<std::string>& command, const std::string& out,
                         double limitSeconds) {
    const TemporaryFolder folder;
    const std::string outPath = out.empty() ? folder.file("out") : out;
    const auto start = std::chrono::steady_clock::now();
    const auto elapsed = [&] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    };
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("fork failed");
    if (child == 0) become(command, outPath, folder.file("messages"));
    ProcessResult r;
    int state = 0;
    rusage usage{};
    while (wait4(child, &state, WNOHANG, &usage) == 0) {
        if (elapsed() > limitSeconds) {
            kill(child, SIGKILL);
            wait4(child, &state, 0, &usage);
            break;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    r.seconds = elapsed();
    r.peakKilobytes = usage.ru_maxrss;
    r.status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
    if (out.empty()) r.out = readText(outPath);
    r.messages = readText(folder.file("messages"));
    return r;
}

TemporaryFolder::TemporaryFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "headmark-test-XXXXXX").string();
    if (!mkdtemp(pattern.data())) throw std::runtime_error("no temporary folder");
    path_ = pattern;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::string TemporaryFolder::write(const std::string& name, const std::string& text) const {
    std::ofstream(file(name), std::ios::binary) << text;
    return file(name);
}

std::string readText(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

} // namespace headmark::test
