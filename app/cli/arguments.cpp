// The only file that includes CLI11: it costs half a minute to compile.
#include "app/cli/arguments.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <sstream>

namespace headmark {

namespace {

void addInput(CLI::App& command, Arguments& to, const std::string& what) {
    command.add_option("INPUT", to.input, what)->required();
}

void addOutput(CLI::App& command, std::string& out, Arguments& to) {
    command.add_option("--out", out, "Write the result to this file instead of the terminal");
    command.add_flag("--table", to.table, "A readable table instead of JSON");
}

} // namespace

ParsedArguments parseArguments(int argc, const char* const* argv) {
    Arguments arguments;
    std::string out, shifts, pump, drawing;
    CLI::App app(
        "headmark-cli: where a pump will run on a site, how efficiently, with how many zones open, and "
        "what would harm it.",
        "headmark-cli");
    app.require_subcommand(1);
    app.footer("Examples:\n"
               "  headmark-cli read my-chart.reading.json --table\n"
               "  headmark-cli duty samples/terrace-nursery.job.json --table\n"
               "  headmark-cli duty my-site.job.json --out my-site.findings.json\n"
               "  headmark-cli sheet my-site.job.json --table\n"
               "  headmark-cli check my-site.job.json\n\n"
               "Exit status: 0 the computation ran, 2 the input is wrong or the output cannot be written,\n"
               "3 the computation did not converge.");
    CLI::App* read = app.add_subcommand(
        "read", "Read the lines of a printed chart: samples and fitted curves with their intervals");
    addInput(*read, arguments, "A reading file (.reading.json): pins and lines of a chart, and its picture");
    addOutput(*read, out, arguments);
    read->footer("Example:\n  headmark-cli read my-chart.reading.json --table");
    CLI::App* duty = app.add_subcommand(
        "duty", "Answer a job: duty point, efficiency band, suction margin, zones at once");
    addInput(*duty, arguments, "A job file (.job.json)");
    addOutput(*duty, out, arguments);
    duty->add_option("--shifts", shifts, "Write the shift plan besides, as CSV to key into a controller");
    duty->footer("Example:\n  headmark-cli duty samples/terrace-nursery.job.json --table");
    CLI::App* sheet = app.add_subcommand(
        "sheet", "Parts between source, pump and main, how they join, and what to read at the first start");
    addInput(*sheet, arguments, "A job file (.job.json)");
    addOutput(*sheet, out, arguments);
    sheet->add_option("--pump", pump, "Name of the pump in the job; left out: the first");
    sheet->add_option("--drawing", drawing, "Write the drawing besides, as SVG");
    sheet->footer("Example:\n  headmark-cli sheet samples/terrace-nursery.job.json --table");
    CLI::App* check = app.add_subcommand("check", "Say whether a reading, job or findings file is in order");
    addInput(*check, arguments, "The file to look at");
    check->footer("Example:\n  headmark-cli check my-site.job.json");

    ParsedArguments parsed;
    constexpr std::array<std::string_view, 4> kCommands{"read", "duty", "sheet", "check"};
    if (argc > 1 && argv[1][0] != '-' &&
        std::find(kCommands.begin(), kCommands.end(), std::string_view(argv[1])) == kCommands.end()) {
        parsed.text = "headmark-cli has no command \"" + std::string(argv[1]) +
                      "\"; it has read, duty, sheet and check. See headmark-cli --help.\n";
        parsed.status = 2;
        return parsed;
    }
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        std::ostringstream help, misuse;
        const int status = app.exit(e, help, misuse);
        parsed.text = status == 0 ? help.str() : misuse.str();
        parsed.status = status == 0 ? 0 : 2;
        return parsed;
    }
    arguments.command = app.get_subcommands().front()->get_name();
    if (read->count("--out") > 0 || duty->count("--out") > 0 || sheet->count("--out") > 0)
        arguments.out = out;
    if (sheet->count("--pump") > 0) arguments.pump = pump;
    if (sheet->count("--drawing") > 0) arguments.drawing = drawing;
    if (duty->count("--shifts") > 0) arguments.shifts = shifts;
    parsed.arguments = arguments;
    return parsed;
}

} // namespace headmark
