#pragma once
// Every code that the readers of JSON files may report. app/words has a sentence for each; a test proves it.
// Beside each: the facts that come with it.

#include <array>
#include <string_view>

namespace headmark::code {

using View = std::string_view;

// The file as a whole.
inline constexpr View kNoSuchFile = "no-such-file";
inline constexpr View kIsFolder = "is-folder";
inline constexpr View kNotRegularFile = "not-regular-file"; // pipe, device, socket
inline constexpr View kCannotRead = "cannot-read";          // why
inline constexpr View kFileTooLarge = "file-too-large";     // size_MB, limit_MB
inline constexpr View kEmptyFile = "empty-file";
inline constexpr View kInvalidUtf8 = "invalid-utf8"; // line, column
inline constexpr View kBrokenJson = "broken-json";   // line, column, found (empty: the text ends there)
inline constexpr View kNumberTooLarge = "number-too-large"; // line, column, found
inline constexpr View kTooDeep = "too-deep";                // limit
inline constexpr View kDuplicateKey = "duplicate-key";
inline constexpr View kWrongFormat = "wrong-format";       // found, expected
inline constexpr View kNewerVersion = "newer-version";     // found, known
inline constexpr View kUnknownVersion = "unknown-version"; // found, known

// One key.
inline constexpr View kWrongType = "wrong-type"; // found_kind, found, expected
inline constexpr View kMissingKey = "missing-key";
inline constexpr View kMissingBeside = "missing-beside";      // beside: the key that asks for it
inline constexpr View kUnknownKey = "unknown-key";            // nearest, known
inline constexpr View kOutOfRange = "out-of-range";           // found, least, greatest
inline constexpr View kShareNotPercent = "share-not-percent"; // found, suggested, least, greatest
inline constexpr View kUnknownChoice = "unknown-choice";      // found, allowed
inline constexpr View kEmptyText = "empty-text";
inline constexpr View kTextTooLong = "text-too-long"; // length, limit
inline constexpr View kEmptyList = "empty-list";
inline constexpr View kWrongLength = "wrong-length"; // found, expected
inline constexpr View kBadTime = "bad-time";         // found
inline constexpr View kEmptyWindow = "empty-window"; // found

// Keys that belong together or exclude each other.
inline constexpr View kOneOfNeeded = "one-of-needed";  // keys
inline constexpr View kOnlyOneOf = "only-one-of";      // found, keys
inline constexpr View kExcludedBy = "excluded-by";     // by
inline constexpr View kNotAscending = "not-ascending"; // lower, lower_value, upper, upper_value

// What the values mean.
inline constexpr View kUnknownCode = "unknown-code";       // kind, found, nearest
inline constexpr View kNoSuchSize = "no-such-size";        // code, size, sizes
inline constexpr View kDuplicateName = "duplicate-name";   // name, first
inline constexpr View kRepeatedEntry = "repeated-entry";   // name
inline constexpr View kUnknownTakeoff = "unknown-takeoff"; // name, known
inline constexpr View kUnknownZone = "unknown-zone";       // name, known
inline constexpr View kUnknownPump = "unknown-pump";       // name, known
inline constexpr View kTakeoffMisplaced = "takeoff-misplaced";
inline constexpr View kZonesWithoutZones = "zones-open-without-zones"; // by
inline constexpr View kPumpWithoutHead = "pump-without-head";          // name
inline constexpr View kQuantityTwice =
    "quantity-given-twice";                          // quantity, first; line, first_line: of readings
inline constexpr View kUnknownLine = "unknown-line"; // quantity, name, reading, known
inline constexpr View kLineChoiceNeeded = "line-choice-needed";       // quantity, lines, reading
inline constexpr View kTooFewPoints = "too-few-points";               // points, least
inline constexpr View kRepeatedFlow = "repeated-flow";                // flow_m3_h
inline constexpr View kDegreeTooHigh = "degree-too-high";             // degree, points
inline constexpr View kSpacingBeyondLength = "spacing-beyond-length"; // spacing_m, length_m
inline constexpr View kPressureHeldNeeds = "pressure-held-needs";

// Of a chart reading.
inline constexpr View kBadBase64 = "bad-base64";           // position: of the character, from 1
inline constexpr View kBadColour = "bad-colour";           // found
inline constexpr View kNotOnLogScale = "not-on-log-scale"; // found
inline constexpr View kTooFewPinned = "too-few-pinned";    // what: flow, left or right (value axis); found

// Of findings.
inline constexpr View kListTooLong = "list-too-long"; // found, limit

inline constexpr std::array kReaderCodes{
    kNoSuchFile,        kIsFolder,
    kNotRegularFile,    kCannotRead,
    kFileTooLarge,      kEmptyFile,
    kInvalidUtf8,       kBrokenJson,
    kNumberTooLarge,    kTooDeep,
    kDuplicateKey,      kWrongFormat,
    kNewerVersion,      kUnknownVersion,
    kWrongType,         kMissingKey,
    kMissingBeside,     kUnknownKey,
    kOutOfRange,        kShareNotPercent,
    kUnknownChoice,     kEmptyText,
    kTextTooLong,       kEmptyList,
    kWrongLength,       kBadTime,
    kEmptyWindow,       kOneOfNeeded,
    kOnlyOneOf,         kExcludedBy,
    kNotAscending,      kUnknownCode,
    kNoSuchSize,        kDuplicateName,
    kRepeatedEntry,     kUnknownTakeoff,
    kUnknownZone,       kUnknownPump,
    kTakeoffMisplaced,  kZonesWithoutZones,
    kPumpWithoutHead,   kQuantityTwice,
    kTooFewPoints,      kRepeatedFlow,
    kDegreeTooHigh,     kSpacingBeyondLength,
    kPressureHeldNeeds, kBadBase64,
    kBadColour,         kNotOnLogScale,
    kTooFewPinned,      kListTooLong,
    kUnknownLine,       kLineChoiceNeeded,
};

} // namespace headmark::code
