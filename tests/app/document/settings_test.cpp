#include "app/document/settings.h"

#include <QFile>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace headmark {
namespace {

TEST(Settings, KeepUnitsLookLanguageAndWindow) {
    const DisplayUnits units{FlowUnit::imperialGallonsPerMinute, HeadUnit::feet, PressureUnit::psi,
                             LengthUnit::feet};
    {
        Settings settings;
        settings.setUnits(units);
        settings.setLook(2);
        settings.setLanguage(QStringLiteral("de"));
        settings.setWindow("place", "bars");
    }
    const Settings again;
    EXPECT_EQ(again.units(), units);
    EXPECT_EQ(again.look(), 2);
    EXPECT_EQ(again.language(), QStringLiteral("de"));
    EXPECT_EQ(again.windowGeometry(), QByteArray("place"));
    EXPECT_EQ(again.windowState(), QByteArray("bars"));
}

TEST(Settings, TakeAnUnknownUnitAsNeverChosen) {
    Settings settings;
    settings.setUnits({static_cast<FlowUnit>(77), HeadUnit::feet, PressureUnit::bar, LengthUnit::metres});
    EXPECT_LE(static_cast<int>(settings.units().flow), 4);
    EXPECT_EQ(settings.units().head, HeadUnit::feet);
}

TEST(Settings, NameTheEightLatestJobsThatAreStillThere) {
    const QTemporaryDir folder;
    Settings settings;
    QStringList paths;
    for (int i = 0; i < 10; ++i) {
        paths.prepend(folder.filePath(QStringLiteral("%1.job.json").arg(i)));
        QFile file(paths.first());
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        settings.addRecentJob(paths.first());
    }
    EXPECT_EQ(settings.recentJobs(), paths.mid(0, 8));
    settings.addRecentJob(paths[3]); // opened again: comes first, and only once
    EXPECT_EQ(settings.recentJobs().first(), paths[3]);
    EXPECT_EQ(settings.recentJobs().count(paths[3]), 1);
    QFile::remove(paths[0]);
    EXPECT_FALSE(settings.recentJobs().contains(paths[0]));
}

} // namespace
} // namespace headmark
