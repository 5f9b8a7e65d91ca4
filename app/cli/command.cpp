#include "app/cli/command.h"

#include "analysis/chart/chart_codes.h"
#include "app/cli/check_command.h"
#include "app/cli/duty_command.h"
#include "app/cli/read_command.h"
#include "app/cli/sheet_command.h"
#include "app/words/error_words.h"

#include <QFileInfo>
#include <QSaveFile>

#include <algorithm>
#include <exception>
#include <memory>

namespace headmark {

int Command::refuse(const std::vector<Error>& errors) {
    messages_ << sentences(errors).toStdString() << '\n';
    const bool stalled = std::any_of(errors.begin(), errors.end(), [](const Error& error) {
        return error.code == code::kMappingNotFound || error.code == code::kCurveNotSettled;
    });
    return stalled ? kNotConverged : kWrongInput;
}

int Command::refuse(Error error, const std::string& file) {
    if (error.file.empty()) error.file = file;
    return refuse(std::vector<Error>{std::move(error)});
}

int Command::deliver(const Arguments& arguments, const std::string& text) {
    if (!arguments.out) {
        out_ << text << std::flush;
        if (!out_)
            return refuse(
                {"cannot-write", "standard output", "", {{"why", std::string("no room or closed")}}}, "");
        return kRan;
    }
    const QString path = QString::fromStdString(*arguments.out);
    const QFileInfo target(path);
    if (target.exists() && target.canonicalFilePath() ==
                               QFileInfo(QString::fromStdString(arguments.input)).canonicalFilePath()) {
        return refuse({"cannot-write", *arguments.out, "", {{"why", std::string("it is the input file")}}},
                      "");
    }
    // QSaveFile writes beside the target and renames: an existing file stays whole when anything fails.
    QSaveFile file(path);
    const bool special = target.exists() && !target.isFile();
    if (special || !file.open(QIODevice::WriteOnly) ||
        file.write(text.data(), static_cast<qint64>(text.size())) != static_cast<qint64>(text.size()) ||
        !file.commit()) {
        const std::string why =
            special ? "it is a folder or device, not a file" : file.errorString().toStdString();
        return refuse({"cannot-write", *arguments.out, "", {{"why", why}}}, "");
    }
    return kRan;
}

int runCommand(const Arguments& arguments, std::ostream& out, std::ostream& messages) {
    std::unique_ptr<Command> command;
    if (arguments.command == "read") {
        command = std::make_unique<ReadCommand>(out, messages);
    } else if (arguments.command == "duty") {
        command = std::make_unique<DutyCommand>(out, messages);
    } else if (arguments.command == "sheet") {
        command = std::make_unique<SheetCommand>(out, messages);
    } else {
        command = std::make_unique<CheckCommand>(out, messages);
    }
    try {
        return command->run(arguments);
    } catch (const std::exception& e) {
        messages << "headmark-cli: something went wrong inside the program: " << e.what()
                 << ". Nothing was written. Please report it with the input file.\n";
        return kNotConverged;
    }
}

} // namespace headmark
