#include "app/words/safety_words.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Safety", text)

constexpr const char* kCautions[] = {
    HM_WORDS(
        "Mains electricity near water kills: feed the pump through a 30 mA residual-current device (RCD), "
        "isolate it "
        "and make sure it stays off before touching it, and leave the wiring to a qualified electrician."),
    HM_WORDS("Pipes, filters and vessels under pressure can burst: stop the pump and let the pressure off "
             "before opening "
             "anything, and keep to the lowest rating in the line."),
    HM_WORDS("Pumps, motors and full pipes are heavy: lift with help or with tackle, and keep hands and feet "
             "clear."),
    HM_WORDS("Watering lines must never feed back into drinking water: fit the backflow protection that your "
             "water "
             "supplier asks for."),
    HM_WORDS("These figures are a calculation from what was described: local codes, the makers' instructions "
             "and the "
             "judgement of licensed trades come first."),
};

} // namespace

QStringList usualCautions(const Phrasing& p) {
    QStringList sentences;
    for (const char* sentence : kCautions)
        sentences << p.text("Safety", sentence);
    return sentences;
}

} // namespace headmark
