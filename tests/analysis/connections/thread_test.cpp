#include "analysis/connections/thread.h"
#include "analysis/connections/thread_size.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using State = ThreadSizeFinding::State;

PortEnd portOf(const char* text) {
    const auto port = parsedPort(text);
    EXPECT_TRUE(port.ok()) << text;
    return port.ok() ? *port : PortEnd{};
}

// Designations of ISO 228-1 and ISO 7-1, from memory: class letters belong to external G threads only.
TEST(Thread, ReadsTheDesignationsOfBothStandards) {
    const PortEnd inner = portOf("G 1-1/2");
    EXPECT_EQ(inner.form, ThreadForm::parallelG);
    EXPECT_FALSE(inner.male);
    EXPECT_EQ(inner.size, "1-1/2");
    EXPECT_TRUE(portOf("G 2 A").male);
    EXPECT_TRUE(portOf("G 2 B").male);
    EXPECT_TRUE(portOf("R 1").male);
    EXPECT_EQ(portOf("R 1").form, ThreadForm::taperR);
    EXPECT_EQ(portOf("Rp 3/4").form, ThreadForm::parallelRp);
    EXPECT_FALSE(portOf("Rc 1-1/4").male);
    EXPECT_EQ(portOf("Rc 1-1/4").form, ThreadForm::taperRc);
}

TEST(Thread, ReadsSizesAsPeopleWriteThem) {
    EXPECT_EQ(portOf("G1 1/2").size, "1-1/2");
    EXPECT_EQ(portOf(" G  1.1/4 ").size, "1-1/4");
    EXPECT_EQ(portOf("Rp1/2").size, "1/2");
}

TEST(Thread, ReadsAFlangeByItsDn) {
    EXPECT_TRUE(portOf("DN 50").flange);
    EXPECT_EQ(portOf("DN 50").size, "2"); // DN 50 goes with 2 in
}

TEST(Thread, RefusesWhatIsNoThreadAndSaysWhatIs) {
    for (const char* wrong : {"", "1-1/2", "M 20", "NPT 1", "G", "G one", "Rp", "DN x", "G A"}) {
        const auto port = parsedPort(wrong);
        ASSERT_FALSE(port.ok()) << wrong;
        EXPECT_EQ(port.error().code, "thread-unreadable") << wrong;
        EXPECT_NE(findFact(port.error().facts, "allowed"), nullptr);
    }
    EXPECT_EQ(parsedPort("G 7").error().code, "thread-size-unknown");
    EXPECT_EQ(parsedPort("DN 55").error().code, "thread-size-unknown");
    EXPECT_EQ(parsedPort("G 1-1/3").error().code, "thread-size-unknown");
    EXPECT_EQ(parsedPort("Rp 1 A").error().code, "thread-class-misplaced");
}

// Major diameters of ISO 228-1 as published in thread charts.
TEST(ThreadSize, FindsEverySizeFromItsOutsideDiameter) {
    const std::pair<double, const char*> sizes[] = {{9.728, "1/8"},    {13.157, "1/4"},   {16.662, "3/8"},
                                                    {20.955, "1/2"},   {26.441, "3/4"},   {33.249, "1"},
                                                    {41.910, "1-1/4"}, {47.803, "1-1/2"}, {59.614, "2"},
                                                    {75.184, "2-1/2"}, {87.884, "3"},     {113.030, "4"}};
    for (const auto& [diameter, size] : sizes) {
        const auto found = threadSizeFromDiameter(Length::fromMillimetres(diameter), ThreadSide::male);
        EXPECT_EQ(found.state, State::sure) << size;
        EXPECT_EQ(found.candidates.front().size, size);
    }
    const auto measured = threadSizeFromDiameter(Length::fromMillimetres(47.8), ThreadSide::male);
    EXPECT_EQ(measured.candidates.front().size, "1-1/2");
    EXPECT_EQ(measured.candidates.front().threadsPerInch, 11.0);
    // A worn crest of class B: 0.36 mm less than nominal for 11 threads to the inch.
    EXPECT_EQ(threadSizeFromDiameter(Length::fromMillimetres(47.44), ThreadSide::male).state, State::sure);
}

// Minor diameters of ISO 228-1: d less 2 x 0.640327 x pitch, 25.4/11 mm for 1 to 6 in: 2.957 mm.
TEST(ThreadSize, FindsAFemaleThreadFromItsInnerDiameter) {
    const auto found = threadSizeFromDiameter(Length::fromMillimetres(44.9), ThreadSide::female);
    EXPECT_EQ(found.state, State::sure);
    EXPECT_EQ(found.candidates.front().size, "1-1/2");
    EXPECT_NEAR(found.candidates.front().nominal.inMillimetres(), 47.803 - 2.957, 0.002);
}

// 21.8 mm lies between 1/2 (20.955) and 5/8 (22.911).
TEST(ThreadSize, SaysWhenTwoSizesComeInQuestion) {
    const auto found = threadSizeFromDiameter(Length::fromMillimetres(21.8), ThreadSide::male);
    EXPECT_EQ(found.state, State::ambiguous);
    ASSERT_EQ(found.candidates.size(), 2u);
    EXPECT_EQ(found.candidates[0].size, "1/2");
    EXPECT_EQ(found.candidates[1].size, "5/8");
}

TEST(ThreadSize, NamesTheNearestTwoWhereNoneFits) {
    const auto found = threadSizeFromDiameter(Length::fromMillimetres(37.5), ThreadSide::male);
    EXPECT_EQ(found.state, State::none);
    ASSERT_EQ(found.candidates.size(), 2u);
    EXPECT_EQ(found.candidates[0].size, "1");     // 4.25 mm off
    EXPECT_EQ(found.candidates[1].size, "1-1/4"); // 4.41 mm off
}

} // namespace
} // namespace headmark
