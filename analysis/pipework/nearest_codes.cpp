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

// How far the words of `wrong` are from their nearest ones in `code`, whatever their order, plus a little for
// every letter the code has more.
double wordsApart(const std::vector<std::string>& wrong, const std::vector<std::string>& code) {
    constexpr double kPerLetterMore = 0.2;
    double apart = 0.0;
    std::size_t wrongLetters = 0, codeLetters = 0;
    for (const std::string& word : code) {
        codeLetters += word.size();
    }
    for (const std::string& word : wrong) {
        std::size_t nearest = word.size();
        for (const std::string& other : code) {
            nearest = std::min(nearest, editDistance(word, other));
        }
        apart += static_cast<double>(nearest);
        wrongLetters += word.size();
    }
    return apart + kPerLetterMore * static_cast<double>(codeLetters - std::min(codeLetters, wrongLetters));
}

// Half of the words or more stand in the code; a single letter or digit says too little.
bool sharesWords(const std::vector<std::string>& wrong, const std::vector<std::string>& code) {
    const auto shared = std::count_if(wrong.begin(), wrong.end(), [&](const std::string& word) {
        return word.size() > 1 && std::find(code.begin(), code.end(), word) != code.end();
    });
    return shared > 0 && 2 * static_cast<std::size_t>(shared) >= wrong.size();
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
        const std::vector<std::string> words = wordsOf(candidate);
        const double farness =
            std::min(static_cast<double>(editDistance(wanted, candidate)), wordsApart(wantedWords, words));
        // A slip of the pen touches up to a third of the letters.
        const double slip = std::max(1.0, static_cast<double>(wanted.size()) / 3.0);
        if (farness <= slip || sharesWords(wantedWords, words)) {
            near.push_back({&code, farness});
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
