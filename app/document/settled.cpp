#include "app/document/settled.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "analysis/job/reading_reader.h"
#include "analysis/job/reading_writer.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

std::vector<PixelPoint> placesOf(const Reading& reading) {
    std::vector<PixelPoint> places;
    for (const Pin& pin : reading.pins)
        places.push_back(pin.at);
    for (const ChartLine& line : reading.lines) {
        places.insert(places.end(), line.followFrom.begin(), line.followFrom.end());
        places.insert(places.end(), line.spots.begin(), line.spots.end());
    }
    return places;
}

void roundNewPlaces(Reading& reading, const std::vector<PixelPoint>& known) {
    const auto round = [&](PixelPoint& at) {
        if (std::find(known.begin(), known.end(), at) != known.end()) return;
        constexpr double kPerPixel = 100.0;
        at = {std::round(at.x_px * kPerPixel) / kPerPixel, std::round(at.y_px * kPerPixel) / kPerPixel};
    };
    for (Pin& pin : reading.pins)
        round(pin.at);
    for (ChartLine& line : reading.lines) {
        std::for_each(line.followFrom.begin(), line.followFrom.end(), round);
        std::for_each(line.spots.begin(), line.spots.end(), round);
    }
}

std::shared_ptr<const Reading> settled(const Reading& reading, const Reading* before) {
    auto now = std::make_shared<Reading>(reading);
    roundNewPlaces(*now, before ? placesOf(*before) : std::vector<PixelPoint>());
    const ChartPage page = now->chart;
    now->chart.bytes.reset(); // large, and not changed by writing
    now->chart.path = "page";
    ReadingReading read = readReadingDocument(readingDocument(*now), "", Finish::mayBeUnfinished);
    if (read.reading) *now = std::move(*read.reading);
    now->chart.path = page.path;
    now->chart.folder = page.folder;
    now->chart.mediaType = page.mediaType;
    now->chart.bytes = page.bytes;
    return now;
}

} // namespace

void settle(Workspace& now, const Workspace& before) {
    JobReading read = readJobDocument(jobDocument(now.job), "", Finish::mayBeUnfinished);
    if (read.job) {
        read.job->folder = now.job.folder;
        now.job = std::move(*read.job);
    }
    for (ChartSheet& sheet : now.charts) {
        const int index = chartIndex(before, sheet.path);
        const std::shared_ptr<const Reading> old =
            index < 0 ? nullptr : before.charts[static_cast<std::size_t>(index)].reading;
        if (sheet.reading != old) sheet.reading = settled(*sheet.reading, old.get());
    }
}

} // namespace headmark
