#include "analysis/practice/installation.h"

namespace headmark {

std::vector<Study> installationOf(const InstallationQuestion& question) {
    std::vector<Study> studies;
    const auto add = [&](Study study) {
        if (!study.figures.empty() || !study.cautions.empty()) studies.push_back(std::move(study));
    };
    if (!question.solver->model().site().system) {
        add(suctionStudy(question));
        add(shutInStudy(question));
        add(fillingStudy(question));
        add(ratingsStudy(question));
        add(filterStudy(question));
        add(surgeStudy(question));
        add(heldPressureStudy(question));
    }
    add(motorStudy(question));
    return studies;
}

} // namespace headmark
