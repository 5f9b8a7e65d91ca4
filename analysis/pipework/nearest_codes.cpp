#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <cctype>
#include <numeric>

namespace headmark {

namespace {

// Levenshtein distance: insertions, deletions and exchanges of one letter.
std::size_t editDistance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t exchanged = diagonal + (a[i] == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({row[j] + 1, row[j + 1] + 1, exchanged});
        }
    }
    return row.back();
}

std::string lowerCase(std::string_view text) {
    std::string lower(text);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return lower;
}

std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char c : text) {
        if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.') {
            words.back() += c;
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    if (words.back().empty()) {
        words.pop_back();
    }
    return words;
}

// Words of `wrong` found in `code`; a single letter or digit says too little.
std::size_t sharedWords(const std::vector<std::string>& wrong, const std::vector<std::string>& code) {
    return static_cast<std::size_t>(std::count_if(wrong.begin(), wrong.end(), [&](const std::string& word) {
        return word.size() > 1 && std::find(code.begin(), code.end(), word) != code.end();
    }));
}

struct Candidate {
    const std::string* code;
    double farness;
};

} // namespace

std::vector<std::string> nearestCodes(std::string_view wrong, std::span<const std::string> codes,
                                      std::size_t most) {
    const std::string wanted = lowerCase(wrong);
    const std::vector<std::string> wantedWords = wordsOf(wanted);
    std::vector<Candidate> near;
    for (const std::string& code : codes) {
        const std::string candidate = lowerCase(code);
        const std::size_t distance = editDistance(wanted, candidate);
        const std::size_t shared = sharedWords(wantedWords, wordsOf(candidate));
        // A slip of the pen touches up to a third of the letters; otherwise half of the words must agree.
        const bool slip = distance <= std::max<std::size_t>(1, wanted.size() / 3);
        const bool related = shared > 0 && 2 * shared >= wantedWords.size();
        if (slip || related) {
            // A shared word outweighs three letters: the order "valve_gate" still finds "gate_valve" first.
            near.push_back({&code, static_cast<double>(distance) - 3.0 * static_cast<double>(shared)});
        }
    }
    std::stable_sort(near.begin(), near.end(),
                     [](const Candidate& a, const Candidate& b) { return a.farness < b.farness; });
    std::vector<std::string> names;
    for (const Candidate& candidate : near) {
        if (names.size() == most) {
            break;
        }
        // Sized fittings repeat their code.
        if (std::find(names.begin(), names.end(), *candidate.code) == names.end()) {
            names.push_back(*candidate.code);
        }
    }
    return names;
}

} // namespace headmark
