#pragma once
// The parts that job_reader.cpp puts together; each reads one idea of the job file.

#include "analysis/job/job.h"
#include "analysis/job/object_reader.h"

#include <span>
#include <string>
#include <vector>

namespace headmark {

// Of a motor's plate and of what was measured at it.
inline constexpr NumberRange kAmps{0.001, 10'000.0};
inline constexpr NumberRange kVolts{1.0, 50'000.0};
inline constexpr NumberRange kPowerFactor{0.05, 1.0};

// "format" and "version" at the top. False (and reported) when the document is not one this program reads.
[[nodiscard]] bool checkFormatAndVersion(const PlacedValue& document, std::string_view format, int version,
                                         ReadLog& log);

[[nodiscard]] WaterConditions readWater(const PlacedValue& at, ReadLog& log);
[[nodiscard]] EnergyTariff readEnergy(const PlacedValue& at, ReadLog& log);
[[nodiscard]] Limits readLimits(const PlacedValue& at, ReadLog& log);
[[nodiscard]] Uncertainty readUncertainty(const PlacedValue& at, ReadLog& log);
[[nodiscard]] SheetChoices readConnections(const PlacedValue& at, ReadLog& log);

[[nodiscard]] std::vector<Pump> readPumps(const std::vector<PlacedValue>& items, ReadLog& log);

// A pipe's kind under the key "pipe": a code of the catalogue or its figures.
[[nodiscard]] PipeKind readPipeKind(const PlacedValue& at, FrictionMethod friction, ReadLog& log);
// Reads "pipe", "length_m" and "rise_to_m" of an object that may have more keys.
[[nodiscard]] PipeItem readPipeItem(const ObjectReader& object, FrictionMethod friction);
[[nodiscard]] Run readRun(const std::vector<PlacedValue>& items, FrictionMethod friction,
                          bool mayHaveTakeoffs, ReadLog& log);

[[nodiscard]] Site readSite(const PlacedValue& at, ReadLog& log);
[[nodiscard]] Emitters readEmitters(const PlacedValue& at, bool onLaterals, ReadLog& log);
[[nodiscard]] std::vector<Zone> readZones(const std::vector<PlacedValue>& items, const Run& delivery,
                                          FrictionMethod friction, ReadLog& log);

[[nodiscard]] std::vector<Case> readCases(const std::vector<PlacedValue>& items, const Site& site,
                                          ReadLog& log);
[[nodiscard]] FieldCheck readFieldCheck(const PlacedValue& at, const std::vector<Pump>& pumps, ReadLog& log);

// Gives "Pump 1" and so on to the nameless, and reports names given twice.
// `named`: pointer to each thing's name and the place of its "name" key.
void settleNames(std::string_view noun, std::vector<std::pair<std::string*, std::string>> named,
                 ReadLog& log);

} // namespace headmark
