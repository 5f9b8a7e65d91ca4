#include "analysis/connections/joint.h"

#include <gtest/gtest.h>

#include <set>

namespace headmark {
namespace {

End thread(bool male, ThreadForm form, const char* size = "1-1/2", Face face = Face::none,
           Body body = Body::metal) {
    End end;
    end.kind = EndKind::thread;
    end.male = male;
    end.form = form;
    end.size = size;
    end.face = face;
    end.body = body;
    return end;
}

End sized(EndKind kind, double diameter_mm) {
    End end;
    end.kind = kind;
    end.diameter_mm = diameter_mm;
    return end;
}

const End kTaperMale = thread(true, ThreadForm::taperR);
const End kParallelFemale = thread(false, ThreadForm::parallelRp);
const End kTaperFemale = thread(false, ThreadForm::taperRc);
const End kGMale = thread(true, ThreadForm::parallelG, "1-1/2", Face::flat);
const End kGFemale = thread(false, ThreadForm::parallelG, "1-1/2", Face::flat);
const End kNut = thread(false, ThreadForm::parallelG, "1-1/2", Face::washer);

void expectRight(const End& a, const End& b, const char* code, const char* seal) {
    for (const auto& verdict : {judgedJoint(a, b), judgedJoint(b, a)}) {
        EXPECT_TRUE(verdict.right) << code;
        EXPECT_EQ(verdict.code, code);
        EXPECT_EQ(verdict.seal, seal);
        EXPECT_TRUE(verdict.remedy.empty());
        EXPECT_FALSE(verdict.source.empty());
    }
}

void expectWrong(const End& a, const End& b, const char* code, const char* remedy, const JointUse& use = {}) {
    for (const auto& verdict : {judgedJoint(a, b, use), judgedJoint(b, a, use)}) {
        EXPECT_FALSE(verdict.right) << code;
        EXPECT_EQ(verdict.code, code);
        EXPECT_EQ(verdict.remedy, remedy);
        EXPECT_FALSE(verdict.source.empty());
    }
    EXPECT_FALSE(joins(a, b, use));
}

// ISO 7-1, from memory: R with Rp or Rc is tight on the thread.
TEST(Joint, TaperMaleSealsInParallelOrTaperFemaleWithTape) {
    expectRight(kTaperMale, kParallelFemale, "taper-in-parallel", "tape");
    expectRight(kTaperMale, kTaperFemale, "taper-in-taper", "tape");
    // Common practice, no source: a taper male in a pump's G port.
    expectRight(kTaperMale, kGFemale, "taper-in-fastening", "tape");
    expectWrong(kTaperMale, kParallelFemale, "taper-without-tape", "wind-tape",
                {false, Clamp::heavyBand, false});
}

// ISO 228-1, from memory: G threads are closed by faces outside the thread.
TEST(Joint, ParallelThreadsNeedAFaceWasher) {
    expectRight(kGMale, kNut, "parallel-with-washer", "face-washer");
    expectWrong(kGMale, kGFemale, "parallel-without-washer", "fit-face-washer");
    expectWrong(thread(true, ThreadForm::parallelG), kParallelFemale, "parallel-without-washer",
                "fit-face-washer");
    // A washer with nothing flat to press on.
    expectWrong(thread(true, ThreadForm::parallelG), kNut, "parallel-without-washer", "fit-face-washer");
}

TEST(Joint, ParallelMaleDoesNotGoIntoTaperFemale) {
    expectWrong(kGMale, kTaperFemale, "parallel-male-in-taper-female", "use-taper-male");
    expectWrong(thread(true, ThreadForm::parallelG, "1-1/2", Face::washer), kTaperFemale,
                "parallel-male-in-taper-female", "use-taper-male");
}

TEST(Joint, MetalTaperSplitsAPlainPlasticFemaleButNotARingedOne) {
    const End plain = thread(false, ThreadForm::parallelRp, "1-1/2", Face::none, Body::plastic);
    const End ringed = thread(false, ThreadForm::parallelRp, "1-1/2", Face::none, Body::ringedPlastic);
    const End plasticMale = thread(true, ThreadForm::taperR, "1-1/2", Face::none, Body::plastic);
    expectWrong(kTaperMale, plain, "metal-taper-in-plain-plastic", "use-plastic-male-or-ringed-female");
    expectRight(kTaperMale, ringed, "taper-in-parallel", "tape");
    expectRight(plasticMale, plain, "taper-in-parallel", "tape");
}

TEST(Joint, ALooseNutWantsAFlatFaceNoTaper) {
    expectWrong(kTaperMale, kNut, "taper-male-in-nut", "use-flat-faced-nipple");
}

TEST(Joint, TwoMalesTwoFemalesAndTwoSizesDoNotMeet) {
    expectWrong(kTaperMale, kTaperMale, "two-males", "use-socket");
    expectWrong(kParallelFemale, kGFemale, "two-females", "use-nipple");
    expectWrong(kTaperMale, thread(false, ThreadForm::parallelRp, "2"), "sizes-differ", "use-reducer");
    expectWrong(sized(EndKind::pePipe, 63), sized(EndKind::peSocket, 50), "sizes-differ", "use-reducer");
}

TEST(Joint, AHoseNeedsATailAndAHeavyClamp) {
    const End hose = sized(EndKind::hose, 51), tail = sized(EndKind::tail, 51);
    expectRight(hose, tail, "tail-in-hose", "clamp");
    expectWrong(hose, kTaperMale, "hose-without-tail", "use-hose-tail");
    expectWrong(hose, sized(EndKind::tail, 38), "sizes-differ", "use-reducer");
    expectWrong(hose, tail, "hose-without-clamp", "use-heavy-band-clamp", {true, Clamp::none, true});
    expectWrong(hose, tail, "worm-clamp-on-suction", "use-heavy-band-clamp", {true, Clamp::wormDrive, true});
    expectWrong(hose, tail, "worm-clamp-under-pressure", "use-heavy-band-clamp",
                {false, Clamp::wormDrive, true});
}

TEST(Joint, PipesGoIntoTheirOwnSockets) {
    expectRight(sized(EndKind::pePipe, 63), sized(EndKind::peSocket, 63), "pipe-in-compression", "o-ring");
    expectRight(sized(EndKind::pvcPipe, 50), sized(EndKind::pvcSocket, 50), "pipe-in-solvent-socket",
                "cement");
    expectRight(sized(EndKind::tube, 28), sized(EndKind::tubeSocket, 28), "tube-in-compression", "olive");
    expectWrong(sized(EndKind::pePipe, 63), sized(EndKind::pvcSocket, 63), "ends-of-different-kind",
                "use-adaptor");
    expectWrong(sized(EndKind::pePipe, 63), kParallelFemale, "ends-of-different-kind", "use-adaptor");
}

TEST(Joint, FlangesMeetBySize) {
    End two = sized(EndKind::flange, 0), three = two;
    two.size = "2";
    three.size = "3";
    expectRight(two, two, "flanges", "gasket");
    expectWrong(two, three, "sizes-differ", "use-reducer");
}

TEST(Joint, EveryRuleHasASourceAndEveryWrongOneARemedy) {
    std::set<std::string> codes;
    for (const JointRule& rule : jointRules()) {
        EXPECT_TRUE(codes.insert(rule.code).second) << rule.code;
        EXPECT_FALSE(rule.source.empty()) << rule.code;
        EXPECT_EQ(rule.right, rule.remedy.empty()) << rule.code;
        EXPECT_TRUE(rule.confidence == "memory" || rule.confidence == "practice" ||
                    rule.confidence == "seen");
    }
}

} // namespace
} // namespace headmark
