using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Watching;

public sealed class KeptFeaturesTests
{
    [Fact]
    public void Every_feature_of_the_table_comes_back_as_it_was_kept()
    {
        var scenario = DemoScenario.Create(60, 10, 10, 8) with { WarmStart = false };
        scenario = scenario with { Supply = scenario.Supply with { On = [(0.3, 6)] } };
        using var source = new SimulatedFeederSource(scenario);
        var features = Replayer.Run("run", source, scenario.Feeder, new AlarmDelays()).Features;
        var kept = KeptFeatures.Of(features);
        var back = KeptFeatures.Read(kept.ToDictionary(row => row.Name, row => row.Value, StringComparer.Ordinal), features.SteadyWindows, features.Reason);

        Assert.NotNull(features.NaturalHz);
        Assert.True(kept.Count > 30);
        Assert.Equal(kept.Count, kept.Select(row => row.Name).Distinct(StringComparer.Ordinal).Count());
        foreach (var feature in FeatureTable.All)
        {
            var (was, now) = (feature.Of(features), feature.Of(back));
            Assert.True(was is null == now is null, feature.Name);
            Assert.True(was is null || Math.Abs(was.Value - now!.Value) <= 1e-12 * Math.Abs(was.Value), feature.Name);
        }

        Assert.Equal((features.NaturalUncertaintyHz, features.DampingUncertainty, features.CoastDowns), (back.NaturalUncertaintyHz, back.DampingUncertainty, back.CoastDowns));
    }

    [Fact]
    public void Features_of_several_sensors_come_back_too()
    {
        var features = new CaptureFeatures { FrontRear = 0.01, LeftRight = -0.02, FrontRearPhaseDegrees = 3, TrayToBody = 1e-3 };
        var back = KeptFeatures.Read(KeptFeatures.Of(features).ToDictionary(row => row.Name, row => row.Value, StringComparer.Ordinal), 0, null);

        Assert.Equal((0.01, -0.02, 3.0, 1e-3), (back.FrontRear, back.LeftRight, back.FrontRearPhaseDegrees, back.TrayToBody!.Value));
    }
}
