// The tables of how well hard pages are read and how honest the errors are (20 draws or more), and every
// failure:
// show_hard_statistics [--strange] [pages of each style and class [draws of each line [part of the page's
// name]]]
#include "tests/pages/hard_pages.h"
#include "tests/pages/statistics/hard_statistics.h"

#include <cstdlib>
#include <iostream>

int main(int count, char** arguments) {
    using namespace headmark::pages;
    std::vector<std::string> given(arguments + 1, arguments + count);
    const bool strange = !given.empty() && given.front() == "--strange";
    if (strange) given.erase(given.begin());
    const int each = given.empty() ? 2 : std::max(std::atoi(given[0].c_str()), 1);
    const int draws = given.size() > 1 ? std::max(std::atoi(given[1].c_str()), 1) : 1;
    const std::string part = given.size() > 2 ? given[2] : "";
    std::vector<HardDraw> all;
    for (const std::string& name : strange ? strangePageNames(each) : hardPageNames(each)) {
        if (name.find(part) == std::string::npos) continue;
        const std::vector<HardDraw> page = redrawHardPage(name, draws);
        all.insert(all.end(), page.begin(), page.end());
    }
    printFailures(all, std::cout);
    printHardTable(all, std::cout);
    printHonesty(all, std::cout);
}
