#include "analysis/connections/end_grammar.h"

#include "analysis/core/assertion.h"

#include <charconv>

namespace headmark {

namespace {

struct KindName {
    std::string_view name;
    EndKind kind;
};
constexpr KindName kKinds[] = {
    {"thread", EndKind::thread},   {"tail", EndKind::tail},       {"hose", EndKind::hose},
    {"pe", EndKind::peSocket},     {"pepipe", EndKind::pePipe},   {"pvc", EndKind::pvcSocket},
    {"pvcpipe", EndKind::pvcPipe}, {"tube", EndKind::tubeSocket}, {"flange", EndKind::flange},
    {"plain", EndKind::plain},     {"wall", EndKind::wall},       {"water", EndKind::water},
    {"any", EndKind::any}};

EndKind kindNamed(std::string_view name) {
    for (const KindName& known : kKinds) {
        if (known.name == name) return known.kind;
    }
    HEADMARK_ASSERT(false, "an end of no known kind in parts.csv");
    return EndKind::any;
}

ThreadForm formNamed(std::string_view name) {
    for (const ThreadForm form :
         {ThreadForm::parallelG, ThreadForm::taperR, ThreadForm::parallelRp, ThreadForm::taperRc}) {
        if (threadFormName(form) == name) return form;
    }
    HEADMARK_ASSERT(false, "a thread of no known form in parts.csv");
    return ThreadForm::parallelG;
}

const std::string& sizeNamed(const std::string& token, const PartSize& size) {
    if (token == "a") return size.a;
    if (token == "b") return size.b;
    return token;
}

double diameterOf(const std::string& text) {
    double value = 0.0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), value);
    HEADMARK_ASSERT(failure == std::errc{} && end == text.data() + text.size(),
                    "a diameter in parts.csv that is no number");
    return value;
}

Body bodyOf(std::string_view material) {
    if (material == "plastic") return Body::plastic;
    if (material == "plastic_ringed") return Body::ringedPlastic;
    return Body::metal;
}

Face faceNamed(std::string_view name) {
    if (name == "washer") return Face::washer;
    HEADMARK_ASSERT(name == "flat", "a face of no known sort in parts.csv");
    return Face::flat;
}

void addRange(std::vector<PartSize>& sizes, std::string_view from, std::string_view to) {
    const int first = threadSizeIndex(from), last = threadSizeIndex(to);
    HEADMARK_ASSERT(first >= 0 && last >= first, "a range of threads in parts.csv that is none");
    for (int i = first; i <= last; ++i)
        sizes.push_back({threadSizes()[static_cast<std::size_t>(i)], {}});
}

} // namespace

std::vector<std::string> splitText(std::string_view text, char separator) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const auto end = text.find(separator);
        parts.emplace_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return parts;
}

std::vector<PartSize> sizesFromText(std::string_view text) {
    std::vector<PartSize> sizes;
    if (text == "any") return sizes;
    for (const std::string& entry : splitText(text, ';')) {
        if (const auto range = entry.find(".."); range != std::string::npos) {
            addRange(sizes, std::string_view(entry).substr(0, range),
                     std::string_view(entry).substr(range + 2));
            continue;
        }
        const auto cross = entry.find('x');
        if (cross == std::string::npos)
            sizes.push_back({entry, {}});
        else
            sizes.push_back({entry.substr(0, cross), entry.substr(cross + 1)});
    }
    return sizes;
}

End endFromToken(std::string_view token, const PartSize& size, std::string_view material) {
    const std::vector<std::string> fields = splitText(token, ':');
    HEADMARK_ASSERT(!fields.empty(), "an empty end in parts.csv");
    End end;
    end.kind = kindNamed(fields[0]);
    end.body = bodyOf(material);
    if (end.kind == EndKind::wall || end.kind == EndKind::water || end.kind == EndKind::any) return end;
    if (end.kind == EndKind::thread) {
        HEADMARK_ASSERT(fields.size() >= 4, "a thread in parts.csv without sex, form and size");
        end.male = fields[1] == "m";
        end.form = formNamed(fields[2]);
        end.size = sizeNamed(fields[3], size);
        if (fields.size() > 4) end.face = faceNamed(fields[4]);
        return end;
    }
    HEADMARK_ASSERT(fields.size() == 2, "an end in parts.csv without a size");
    const std::string& text = sizeNamed(fields[1], size);
    if (end.kind == EndKind::flange)
        end.size = text;
    else
        end.diameter_mm = diameterOf(text);
    return end;
}

} // namespace headmark
