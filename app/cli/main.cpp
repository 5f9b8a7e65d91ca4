// headmark-cli: the command line over the computing core. Needs no display.
#include "app/cli/arguments.h"
#include "app/cli/command.h"

#include <QCoreApplication>

#include <iostream>

int main(int argc, char** argv) {
    const QCoreApplication application(argc, argv);
    const headmark::ParsedArguments parsed = headmark::parseArguments(argc, argv);
    if (!parsed.arguments) {
        (parsed.status == 0 ? std::cout : std::cerr) << parsed.text;
        return parsed.status;
    }
    return headmark::runCommand(*parsed.arguments, std::cout, std::cerr);
}
