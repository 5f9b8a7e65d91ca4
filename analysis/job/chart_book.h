#pragma once
// The charts that a job's pumps are read from, each reading file opened and read once however often it is
// asked for: several pumps may stand on one chart, and a window asks again whenever the site changes.
// A file that failed is tried again when it is next asked for.

#include "analysis/chart/read_chart.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace headmark {

class ChartBook {
  public:
    // A reading file as it stands, without its picture; or every error in it.
    struct Opened {
        std::shared_ptr<const Reading> reading;
        std::vector<Error> errors;
    };
    // The lines read off its picture, those that could not be read in `lines->unread`; or every error on the
    // way to them. Errors name the reading file and the key in it; those of its picture carry the
    // picture's path as the fact "picture".
    struct Charted {
        std::shared_ptr<const ChartLines> lines;
        std::vector<Error> errors;
    };

    // `pages` must outlive the book.
    explicit ChartBook(PageSource& pages) : pages_(&pages) {}

    [[nodiscard]] Opened open(const std::string& readingFile);
    [[nodiscard]] Charted chart(const std::string& readingFile);

    // Puts what the caller has read in the place of that file, saved or not, until it is forgotten or
    // provided anew: lines, or the errors instead of them. Neither: they are read off the picture when asked
    // for.
    void provide(const std::string& readingFile, std::shared_ptr<const Reading> reading, Charted charted);

    // Has the file opened and read anew: it changed on the disk.
    void forget(const std::string& readingFile);

  private:
    struct Entry {
        std::shared_ptr<const Reading> reading;
        std::shared_ptr<const ChartLines> lines;
        std::vector<Error> errors; // provided instead of lines
    };
    std::map<std::string, Entry> entries_; // by canonical path
    PageSource* pages_;
};

// A reading read, its cautions completed: each line's caution names its line as the fact "line", and carries
// the remedy and the source of chart_codes.h where it brought none of its own. Errors as in Charted, and a
// line's own in `unread`.
[[nodiscard]] Result<ChartLines> chartOf(const Reading& reading, const std::string& readingFile,
                                         PageSource& pages);

} // namespace headmark
