#pragma once
// Whose line is it? Keeps the pumps' readings in step with the lines of a chart: which pump takes which
// quantity from which line. On plain workspaces, so that each is one undoable step where it is used.
// A pump that takes a quantity from a chart always names the line, so that a further line changes nothing.

#include "app/document/workspace.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

// Empty for lines of equal efficiency, which belong to no pump.
[[nodiscard]] std::optional<CurveQuantity> curveQuantityOf(LineQuantity quantity);

// One change of a sheet's reading; nothing where there is no such sheet.
void changeReading(Workspace& workspace, const std::string& path,
                   const std::function<void(Reading&)>& change);

// A name no line of the reading has yet: `wanted`, else with a number.
[[nodiscard]] std::string freeLineName(const Reading& reading, const std::string& wanted);

// The pumps that take their curve from this line.
[[nodiscard]] std::vector<std::size_t> ownersOf(const Workspace& workspace, const std::string& path,
                                                std::size_t line);

// The pump takes its quantity from this line and from nothing else.
void giveLine(Workspace& workspace, const std::string& path, std::size_t line, std::size_t pump);
// No pump takes it. A pump left with nothing at all goes.
void takeLineAway(Workspace& workspace, const std::string& path, std::size_t line);
// A new pump takes it; its index.
std::size_t givePumpOfItsOwn(Workspace& workspace, const std::string& path, std::size_t line,
                             const std::string& name);

// A line just added: to the pump that lacks it (`shownPump` first); a head line of a chart that no pump takes
// a head from makes a pump, named `pumpName`. A further head line stays without.
void findOwner(Workspace& workspace, const std::string& path, std::size_t line, std::size_t shownPump,
               const std::string& pumpName);

// Every head line without a pump gets one of its own, named after the line. How many were made.
std::size_t makePumpsOfHeadLines(Workspace& workspace, const std::string& path);

void addLine(Workspace& workspace, const std::string& path, const ChartLine& line, std::size_t shownPump,
             const std::string& pumpName);
void removeLine(Workspace& workspace, const std::string& path, std::size_t line);
void renameLine(Workspace& workspace, const std::string& path, std::size_t line, const std::string& name);
void changeQuantity(Workspace& workspace, const std::string& path, std::size_t line, LineQuantity quantity);
void removeSheet(Workspace& workspace, const std::string& path);

} // namespace headmark
