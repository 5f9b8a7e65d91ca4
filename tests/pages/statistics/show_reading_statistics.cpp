// The table of how well the made pages are read: show_reading_statistics [draws [page ...]]
#include "tests/pages/statistics/reading_statistics.h"

#include <cstdlib>
#include <iostream>

int main(int count, char** arguments) {
    const int draws = count > 1 ? std::max(std::atoi(arguments[1]), 1) : 20;
    std::vector<std::string> names(arguments + std::min(count, 2), arguments + count);
    if (names.empty()) names = headmark::pages::madePageNames();
    headmark::pages::printTable(headmark::pages::redrawPages(names, draws), std::cout);
}
