#include "app/document/display_units.h"

#include <QLocale>

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

class WithLocale {
  public:
    explicit WithLocale(const QLocale& locale) : before_(QLocale()) { QLocale::setDefault(locale); }
    ~WithLocale() { QLocale::setDefault(before_); }
    WithLocale(const WithLocale&) = delete;
    WithLocale& operator=(const WithLocale&) = delete;

  private:
    QLocale before_;
};

constexpr double kRounding = 1e-14; // a few roundings of a double

TEST(DisplayUnits, EveryUnitGivesBackWhatWasTyped) {
    const double figures[] = {0.0, 1.0, 12.5, 0.037, 9876.54, -3.25};
    for (int choice = 0; choice < 5; ++choice) {
        DisplayUnits u;
        u.flow = static_cast<FlowUnit>(choice);
        u.head = static_cast<HeadUnit>(choice % 2);
        u.pressure = static_cast<PressureUnit>(choice % 4);
        u.length = static_cast<LengthUnit>(choice % 2);
        for (const double x : figures) {
            const double near = kRounding * std::max(1.0, std::abs(x));
            EXPECT_NEAR(u.figure(u.flowFrom(x)), x, near) << choice;
            EXPECT_NEAR(u.figure(u.headFrom(x)), x, near) << choice;
            EXPECT_NEAR(u.figure(u.levelFrom(x)), x, near) << choice;
            EXPECT_NEAR(u.figure(u.pressureFrom(x)), x, near) << choice;
            EXPECT_NEAR(u.figure(u.lengthFrom(x)), x, near) << choice;
        }
    }
}

// NIST SP 811 (2008), Appendix B.9.
TEST(DisplayUnits, AgreeWithTheTablesOfUnits) {
    const Flow oneCubicMetrePerSecond = Flow::fromCubicMetresPerSecond(1.0);
    const auto flowIn = [&](FlowUnit unit) {
        DisplayUnits u;
        u.flow = unit;
        return u.figure(oneCubicMetrePerSecond);
    };
    EXPECT_NEAR(1.0 / flowIn(FlowUnit::usGallonsPerMinute), 6.309020e-05, 5e-12);
    EXPECT_NEAR(1.0 / flowIn(FlowUnit::imperialGallonsPerMinute), 4.54609e-3 / 60.0, 1e-18);
    EXPECT_DOUBLE_EQ(flowIn(FlowUnit::cubicMetresPerHour), 3600.0);
    EXPECT_DOUBLE_EQ(flowIn(FlowUnit::litresPerSecond), 1000.0);
    EXPECT_DOUBLE_EQ(flowIn(FlowUnit::litresPerMinute), 60000.0);
    const auto pressureIn = [](PressureUnit unit) {
        DisplayUnits u;
        u.pressure = unit;
        return u.figure(GaugePressure::fromPascals(1e6));
    };
    EXPECT_NEAR(1e6 / pressureIn(PressureUnit::psi), 6.894757e+03, 5e-4);
    EXPECT_DOUBLE_EQ(pressureIn(PressureUnit::bar), 10.0);
    EXPECT_DOUBLE_EQ(pressureIn(PressureUnit::kilopascals), 1000.0);
    EXPECT_NEAR(1e6 / pressureIn(PressureUnit::metres), 9.80665e+03, 1e-8); // metre of water, conventional
    DisplayUnits feet;
    feet.head = HeadUnit::feet;
    feet.length = LengthUnit::feet;
    EXPECT_DOUBLE_EQ(feet.figure(Head::fromMetres(30.48)), 100.0);
    EXPECT_DOUBLE_EQ(feet.figure(Level::fromMetres(-3.048)), -10.0);
    EXPECT_DOUBLE_EQ(feet.figure(Length::fromMetres(0.3048)), 1.0);
}

TEST(DisplayUnits, ShowThreeDigitsAndNoMoreThanTwoDecimals) {
    const WithLocale english(QLocale(QLocale::English, QLocale::UnitedKingdom));
    const DisplayUnits u;
    EXPECT_EQ(u.text(Flow::fromCubicMetresPerHour(7.934)), QStringLiteral("7.93 m³/h"));
    EXPECT_EQ(u.text(Flow::fromCubicMetresPerHour(0.0371)), QStringLiteral("0.04 m³/h"));
    EXPECT_EQ(u.text(Head::fromMetres(38.26)), QStringLiteral("38.3 m"));
    EXPECT_EQ(u.text(Head::fromMetres(1234.4)), QStringLiteral("1234 m"));
    EXPECT_EQ(u.text(GaugePressure::fromKilopascals(199.6)), QStringLiteral("2.00 bar"));
    EXPECT_EQ(u.text(Length::fromMetres(60.0)), QStringLiteral("60 m"));
    EXPECT_EQ(u.text(Level::fromMetres(-1.8)), QStringLiteral("-1.8 m"));
    EXPECT_EQ(figureText(12.345, 1), QStringLiteral("12.3"));
    EXPECT_EQ(figureText(-0.0001, 2), QStringLiteral("0.00"));
    EXPECT_EQ(figureText(std::nan("")), QStringLiteral("–"));
}

TEST(FigureText, FollowsTheUsersNumbersWithoutGroups) {
    const WithLocale german(QLocale(QLocale::German, QLocale::Germany));
    EXPECT_EQ(figureText(7.934), QStringLiteral("7,93"));
    EXPECT_EQ(figureText(123456.0), QStringLiteral("123456"));
}

TEST(ParsedFigure, TakesPointAndCommaInEveryLocale) {
    for (const QLocale& locale :
         {QLocale(QLocale::German, QLocale::Germany), QLocale(QLocale::English, QLocale::UnitedStates)}) {
        const WithLocale with(locale);
        EXPECT_EQ(parsedFigure(QStringLiteral("12.5")), 12.5);
        EXPECT_EQ(parsedFigure(QStringLiteral("12,5")), 12.5);
        EXPECT_EQ(parsedFigure(QStringLiteral(" - 1,8 ")), -1.8);
        EXPECT_EQ(parsedFigure(QStringLiteral("+3")), 3.0);
        EXPECT_EQ(parsedFigure(QStringLiteral("\u22124.25")), -4.25); // the minus of typographers
        EXPECT_EQ(parsedFigure(QStringLiteral(".5")), 0.5);
        EXPECT_EQ(parsedFigure(QStringLiteral("7,")), 7.0);
        EXPECT_EQ(parsedFigure(QStringLiteral("12\u00a0500,5")), 12500.5); // no-break space
    }
}

TEST(ParsedFigure, RefusesWhatNobodyCanKnow) {
    for (const char* typed :
         {"",       " ",       "-",   ".",    ",",   "1.234,5", "1,234.5", "1.234.567", "1,2,3", "12 5",
          "1 2345", "1,5 000", "abc", "12 m", "1e3", "--1",     "0x10",    "nan",       "inf",   "1-2"})
        EXPECT_FALSE(parsedFigure(QString::fromLatin1(typed))) << typed;
    EXPECT_FALSE(parsedFigure(QString(400, QLatin1Char('9')))); // beyond any number here
}

TEST(ParsedFigure, ReadsWhatFigureTextShows) {
    for (const QLocale& locale : {QLocale(QLocale::German), QLocale(QLocale::English),
                                  QLocale(QLocale::Swedish), QLocale(QLocale::Arabic)}) {
        const WithLocale with(locale);
        for (const double x : {0.0, 7.93, -38.3, 1234.0, 0.04})
            EXPECT_EQ(parsedFigure(figureText(x)), x) << QLocale().name().toStdString();
    }
}

// 1 psi = 6.894757 kPa and 1 US gallon = 3.785412 l (NIST Special Publication 811).
TEST(WordUnits, AreThoseOfTheFigures) {
    const WordUnits usual = wordUnits(DisplayUnits{});
    EXPECT_FALSE(usual.flow || usual.length);
    EXPECT_EQ(usual.pressure->symbol, QStringLiteral("bar"));
    EXPECT_NEAR(usual.pressure->factor, 0.01, 1e-12);
    DisplayUnits american;
    american.flow = FlowUnit::usGallonsPerMinute;
    american.head = HeadUnit::feet;
    american.pressure = PressureUnit::psi;
    EXPECT_FALSE(wordUnits(american).length) << "metres of pipe are still shown";
    american.length = LengthUnit::feet;
    const WordUnits words = wordUnits(american);
    EXPECT_NEAR(words.pressure->factor, 1.0 / 6.894757, 1e-7);
    EXPECT_NEAR(words.flow->factor, 1000.0 / 3.785412 / 60.0, 1e-5);
    EXPECT_NEAR(words.length->factor, 1.0 / 0.3048, 1e-12);
}

} // namespace
} // namespace headmark
