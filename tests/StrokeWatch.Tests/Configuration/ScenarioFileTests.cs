using StrokeWatch.Configuration;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class ScenarioFileTests
{
    [Fact]
    public void An_empty_scenario_is_a_healthy_feeder()
    {
        var reading = ScenarioFile.Parse("", "empty.toml");
        Assert.Empty(reading.Errors);
        Assert.Equal(50, reading.Scenario!.Feeder.Drive.NominalHz);
        Assert.Equal("empty", reading.Scenario.Name);
    }

    [Fact]
    public void Every_table_is_read()
    {
        var scenario = Good("""
            name = "All of it"
            feeder.name = "Sand feeder"
            feeder.drive = { supply_hz = 60, strokes_per_cycle = 1, frequency = "free" }
            [run]
            seed = 9
            duration_s = 2.5
            rate_hz = 4000
            warm_start = false
            [feeder.stroke]
            low = "55 mil"
            high = "0.060 in"
            limit = "1.7 mm"
            [feeder.mounting]
            line_angle_deg = 25
            [feeder.springs]
            modulus_gpa = 205.0
            length_mm = 120.0
            width_mm = 75.0
            front = [ { thickness_mm = 4.0, count = 4 } ]
            rear = [ { thickness_mm = 4.0, count = 5 }, { thickness_mm = 3.0, count = 1 } ]
            stock_mm = [3.0, 4]
            [feeder.air_gap]
            rest_mm = 2.2
            [machine]
            stroke = "1.45 mm"
            damping_ratio = 0.03
            [[mode]]
            frequency_hz = 410
            [supply]
            kind = "magnet-biased"
            firing_deg = 45
            [[voltage]]
            at_s = 0
            percent = 100
            [[voltage]]
            at_s = 2
            percent = 106.5
            [[on]]
            from_s = 0.25
            to_s = 2
            [strike]
            from_s = 1
            force_share = 0.25
            every = 2
            [material]
            impacts_per_s = 12
            [[neighbour]]
            frequency_hz = 24.5
            peak_g = 0.1
            [sensor]
            rate_error_ppm = -3000
            noise_ug_rthz = 100
            offset_g = [0.1, 0, -0.1]
            times = "host"
            [[gap]]
            from_s = 1.5
            to_s = 1.6
            """);
        Assert.Equal("Sand feeder", scenario.Feeder.Name);
        Assert.True(scenario.Feeder.Drive.Free);
        Assert.Equal(1.397e-3, scenario.Feeder.Band.Low.Metres, 12);
        Assert.Equal(25, scenario.Feeder.LineAngleDegrees);
        Assert.Equal(2, scenario.Feeder.Springs!.Rear.Count);
        Assert.Equal(2.2e-3, scenario.Feeder.RestGapMetres);
        Assert.Equal((9UL, 2.5, 4000.0, false), (scenario.Seed, scenario.DurationSeconds, scenario.Sensor.RateHz, scenario.WarmStart));
        Assert.Equal(410, Assert.Single(scenario.Machine.Modes).FrequencyHz);
        Assert.Equal(DriveKind.MagnetBiased, scenario.Supply.Kind);
        Assert.Equal([(0.0, 100.0), (2, 106.5)], scenario.Supply.Voltage);
        Assert.Equal([(0.25, 2.0)], scenario.Supply.On);
        Assert.Equal((1, 0.25, 2), (scenario.Strike!.FromSeconds, scenario.Strike.ForceShare, scenario.Strike.Every));
        Assert.Equal(100e-6 * Math.Sqrt(2000), scenario.Sensor.NoiseG, 12);
        Assert.Equal((0.1, 0, -0.1), scenario.Sensor.OffsetG);
        Assert.True(scenario.Sensor.HostTimes);
        Assert.Equal([(1.5, 1.6)], scenario.Sensor.Gaps);
    }

    [Fact]
    public void A_bad_scenario_gives_all_its_errors_with_their_lines()
    {
        var reading = ScenarioFile.Parse(
            """
            [run]
            durations_s = 4
            rate_hz = "fast"
            [machine]
            stroke = "1.7"
            [supply]
            kind = "quarter-wave"
            [strike]
            every = 0
            [[on]]
            from_s = 2
            to_s = 1
            [sensr]
            bits = 16
            """,
            "bad.toml");
        Assert.Null(reading.Scenario);
        Assert.Equal(
            [
                "bad.toml:2: unknown key \"durations_s\" in [run]; the nearest known is \"duration_s\"",
                "bad.toml:3: \"rate_hz\" must be a number from 200 to 50000",
                "bad.toml:5: \"stroke\" must be a length above zero with its unit, such as \"1.65 mm\", \"0.065 in\" or \"65 mil\"",
                "bad.toml:7: \"kind\" must be one of \"half-wave\", \"full-wave\", \"magnet-biased\"",
                "bad.toml:9: \"every\" must be a whole number from 1 to 10",
                "bad.toml:10: each [[on]] must end after it begins, and begin after the one before has ended",
                "bad.toml:13: unknown key \"sensr\" at the top; the nearest known is \"sensor\"",
            ],
            reading.Errors);
    }

    [Theory]
    [InlineData("[run\nseed = 1", "x.toml:1: ")]
    [InlineData("a = 1\na = 2", "x.toml:2: ")]
    [InlineData("run = 3", "x.toml:1: \"run\" must be a table")]
    [InlineData("[machine]\nstroke = \"1 mm\"\npeak_pull_n = 3", "x.toml:3: give \"stroke\" or \"peak_pull_n\", not both")]
    [InlineData("[supply]\nkind = \"full-wave\"", "x.toml:2: \"kind\" does not go with")]
    [InlineData("[feeder.stroke]\nlow = \"2 mm\"", "x.toml:2: the stroke's \"low\" must be below")]
    [InlineData("[sensor]\nnoise_g = nan", "x.toml:2: \"noise_g\" must be a number from 0 to 10")]
    public void A_single_error_is_one_line(string text, string start)
    {
        var error = Assert.Single(ScenarioFile.Parse(text, "x.toml").Errors);
        Assert.StartsWith(start, error, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error);
    }

    [Fact]
    public void Text_that_was_damaged_is_an_error_or_a_scenario_but_never_a_crash()
    {
        const string text = "name = \"a\"\n[run]\nseed = 1\n[[on]]\nfrom_s = 1\n[[on]]\nfrom_s = 3\n[feeder.springs]\nrear = [ { count = 3 } ]\n[sensor]\noffset_g = [1, 2, 3]\n";
        for (var seed = 0; seed < 3000; seed++)
        {
            var random = new Random(seed);
            var damaged = text.ToCharArray().ToList();
            for (var n = random.Next(1, 6); n > 0; n--)
            {
                var at = random.Next(damaged.Count);
                switch (random.Next(3))
                {
                    case 0: damaged.RemoveAt(at); break;
                    case 1: damaged.Insert(at, text[random.Next(text.Length)]); break;
                    default: damaged[at] = "[]{}=.\"\n1a"[random.Next(10)]; break;
                }
            }

            var reading = ScenarioFile.Parse(new string([.. damaged]), "x.toml");
            Assert.True(reading.Scenario is null == reading.Errors.Count > 0, $"seed {seed}");
        }
    }

    private static FeederScenario Good(string text)
    {
        var reading = ScenarioFile.Parse(text, "good.toml");
        Assert.Empty(reading.Errors);
        return reading.Scenario!;
    }
}
