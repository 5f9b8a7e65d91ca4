// The tables of how well hard pages are read and how honest the errors are (20 draws or more), and every
// failure:
// show_hard_statistics [pages of each style and class [draws of each line [part of the page's name]]]
#include "tests/pages/hard_pages.h"
#include "tests/pages/statistics/hard_statistics.h"

#include <cstdlib>
#include <iostream>

int main(int count, char** arguments) {
    using namespace headmark::pages;
    const int each = count > 1 ? std::max(std::atoi(arguments[1]), 1) : 2;
    const int draws = count > 2 ? std::max(std::atoi(arguments[2]), 1) : 1;
    const std::string part = count > 3 ? arguments[3] : "";
    std::vector<HardDraw> all;
    for (const std::string& name : hardPageNames(each)) {
        if (name.find(part) == std::string::npos) continue;
        const std::vector<HardDraw> page = redrawHardPage(name, draws);
        all.insert(all.end(), page.begin(), page.end());
    }
    printFailures(all, std::cout);
    printHardTable(all, std::cout);
    printHonesty(all, std::cout);
}
