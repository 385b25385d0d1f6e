using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Stations;

public sealed class TrayStrikeTests
{
    /// <summary>A strike is heard where any sensor hears it; it is carried on only where none calls it by itself.</summary>
    [Theory]
    [InlineData(true, true, true)]
    [InlineData(true, false, false)]
    [InlineData(false, true, false)]
    [InlineData(true, null, true)]
    [InlineData(null, null, false)]
    public void A_strike_of_several_sensors_is_carried_on_where_none_calls_it_by_itself(bool? front, bool? rear, bool carried)
    {
        StationReading Reading(SensorPlace place, bool? called) => new()
        {
            Place = place,
            Reading = new()
            {
                StartSeconds = 0,
                LengthSeconds = 0.5,
                Quality = WindowQuality.Good,
                Motion = MotionState.Running,
                StrokeMetres = 1.7e-3,
                FundamentalMetres = 1.7e-3,
                NoiseMetres = 1e-6,
                UncertaintyMetres = 1e-5,
                Strike = called is not null,
                StrikeCarried = called is true,
                StrikeScore = called is null ? 0.1 : 1.2,
            },
        };
        var tray = TrayReading.Of(
            [new(SensorPlace.Front, 0.01, 0), new(SensorPlace.Rear, 0.01, 0)],
            [Reading(SensorPlace.Front, front), Reading(SensorPlace.Rear, rear)],
            lead: 0);

        Assert.Equal(front is not null || rear is not null, tray.Strike);
        Assert.Equal(carried, tray.StrikeCarried);
    }
}
