#pragma once
// Pages once opened, with what was found on them, at hand for the next edit: opening and following cost
// seconds on a large page, moving a pin must not. A page is told by its file (path, time, size), its number
// and resolution, or by its embedded bytes. At most three pages are kept, more only while all together are
// small.

#include "analysis/chart/chart_reader.h"
#include "analysis/chart/page.h"

#include <QtGlobal>

#include <list>
#include <memory>
#include <string>

namespace headmark {

struct PageKey {
    std::string path;
    qint64 changed_ms = 0, size = 0;
    std::shared_ptr<const std::string> bytes;
    int page = 0;
    double dpi = 0.0;

    bool operator==(const PageKey&) const = default;
};
[[nodiscard]] PageKey keyOf(const ChartPage& chart);

class PageShelf {
  public:
    explicit PageShelf(PageSource& source) : source_(&source) {}

    struct Held {
        PageKey key;
        std::shared_ptr<const Page> page;
        std::unique_ptr<ChartReader> reader;
    };
    // Valid until the next call. The page named last is the last to go.
    [[nodiscard]] Result<Held*> held(const ChartPage& chart);
    [[nodiscard]] bool holds(const PageKey& key) const;

  private:
    void makeRoom();
    PageSource* source_;
    std::list<Held> held_; // last used first
};

} // namespace headmark
