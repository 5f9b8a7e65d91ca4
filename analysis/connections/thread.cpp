#include "analysis/connections/thread.h"

#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <charconv>

namespace headmark {

namespace {

struct FormName {
    std::string_view name;
    ThreadForm form;
};
// Longest first: "Rp" before "R".
constexpr FormName kForms[] = {{"Rp", ThreadForm::parallelRp},
                               {"Rc", ThreadForm::taperRc},
                               {"R", ThreadForm::taperR},
                               {"G", ThreadForm::parallelG}};

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' '))
        text.remove_prefix(1);
    while (text.ends_with(' '))
        text.remove_suffix(1);
    return text;
}

Error unreadable(std::string_view text) {
    return {"thread-unreadable",
            "",
            "",
            {{"found", std::string(text)},
             {"allowed", std::vector<std::string>{"G 1-1/2", "G 1-1/2 A", "G 1-1/2 B", "R 1-1/2", "Rp 1-1/2",
                                                  "Rc 1-1/2", "DN 40"}}}};
}

Error sizeUnknown(std::string_view text) {
    return {"thread-size-unknown", "", "", {{"found", std::string(text)}, {"allowed", threadSizes()}}};
}

// "1 1/2" and "1.1/2" as "1-1/2".
std::string normalSize(std::string_view text) {
    std::string size(text);
    for (std::size_t i = 1; i + 1 < size.size(); ++i) {
        if ((size[i] == ' ' || size[i] == '.') && size.find('/', i) != std::string::npos) size[i] = '-';
    }
    return size;
}

Result<PortEnd> parsedFlange(std::string_view text, std::string_view rest) {
    int dn = 0;
    const auto [end, failure] = std::from_chars(rest.data(), rest.data() + rest.size(), dn);
    if (failure != std::errc{} || end != rest.data() + rest.size()) return unreadable(text);
    const std::string size = threadSizeOfDn(dn);
    if (size.empty()) return sizeUnknown(text);
    return PortEnd{true, false, ThreadForm::parallelG, size};
}

} // namespace

const std::vector<std::string>& threadSizes() {
    static const std::vector<std::string> sizes = [] {
        std::vector<std::string> found;
        for (const ThreadRow& row : threadRows()) {
            if (row.dn > 0) found.push_back(row.designation); // 5/8 has no DN: meter unions only
        }
        return found;
    }();
    return sizes;
}

int threadSizeIndex(std::string_view size) {
    const auto& sizes = threadSizes();
    const auto found = std::find(sizes.begin(), sizes.end(), size);
    return found == sizes.end() ? -1 : static_cast<int>(found - sizes.begin());
}

std::string threadSizeOfDn(int dn) {
    for (const ThreadRow& row : threadRows()) {
        if (row.dn == dn && dn > 0) return row.designation;
    }
    return {};
}

std::string_view threadFormName(ThreadForm form) {
    for (const FormName& known : kForms) {
        if (known.form == form) return known.name;
    }
    return {};
}

Result<PortEnd> parsedPort(std::string_view text) {
    std::string_view rest = trimmed(text);
    if (rest.starts_with("DN")) return parsedFlange(text, trimmed(rest.substr(2)));
    const auto known = std::find_if(std::begin(kForms), std::end(kForms),
                                    [&](const FormName& f) { return rest.starts_with(f.name); });
    if (known == std::end(kForms)) return unreadable(text);
    rest = trimmed(rest.substr(known->name.size()));
    if (rest.empty()) return unreadable(text);
    bool classed = false;
    if (rest.ends_with('A') || rest.ends_with('B')) {
        if (known->form != ThreadForm::parallelG)
            return Error{"thread-class-misplaced", "", "", {{"found", std::string(text)}}};
        classed = true;
        rest = trimmed(rest.substr(0, rest.size() - 1));
    }
    if (rest.empty() || rest.front() < '0' || rest.front() > '9') return unreadable(text);
    const std::string size = normalSize(rest);
    if (threadSizeIndex(size) < 0) return sizeUnknown(text);
    return PortEnd{false, known->form == ThreadForm::taperR || classed, known->form, size};
}

} // namespace headmark
