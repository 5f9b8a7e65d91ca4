#pragma once
// The parts of findings_table.h, one for each thing a reader looks for about a pump.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/words/phrasing.h"
#include "app/words/text_page.h"

namespace headmark {

// Which cases it serves, what stops it in the others, and how many zones may run at once.
void writeVerdict(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& phrasing);

// One line per case, and why a figure is missing.
void writeCases(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& phrasing);

// Flow and pressures of every open zone of every case, with the limits where they are broken.
void writeZonePressures(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& phrasing);

// By severity; a caution that several cases share stands once, with the figures of the worst.
void writeCautions(TextPage& page, const PumpFindings& pump, const Phrasing& phrasing);

// How well flow, head, efficiency and shaft power are known, apart from what the maker may deliver.
void writeIntervals(TextPage& page, const PumpFindings& pump, const Phrasing& phrasing);

// The figures of the installation's studies, by topic.
void writeInstallation(TextPage& page, const PumpFindings& pump, const Phrasing& phrasing);

// The shift plan: what to key into the controller, how long it takes, whether the water lasts.
void writeShifts(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& phrasing);

// What keeps a case from serving, in a few words each; empty where it serves.
[[nodiscard]] QStringList stoppingLabels(const CaseAnswer& answer, const Phrasing& phrasing);

} // namespace headmark
