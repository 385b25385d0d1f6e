using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
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
        Assert.Equal(50, reading.Value!.Feeder.Drive.NominalHz);
        Assert.Equal("empty", reading.Value.Name);
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
        Assert.Null(reading.Value);
        Assert.Equal(
            [
                "bad.toml:2: unknown key `durations_s` in [run]; did you mean `duration_s`? Known here: duration_s, rate_hz, recorded, seed, warm_start",
                "bad.toml:3: `run.rate_hz` is \"fast\"; a number from 200 to 50000 Hz was expected",
                "bad.toml:5: `machine.stroke` is \"1.7\"; a length in quotes with its unit mm, in or mil was expected, such as \"1.65 mm\"",
                "bad.toml:7: `supply.kind` is \"quarter-wave\"; \"half-wave\" or \"full-wave\" or \"magnet-biased\" was expected",
                "bad.toml:9: `strike.every` is 0; a whole number from 1 to 10 was expected",
                "bad.toml:10: a span of [[on]] ends before it begins, or begins before the one before it has ended; spans one after the other were expected",
                "bad.toml:13: unknown table `sensr`; did you mean `sensor`? Known here: faults, feeder, gap, machine, material, mode, name, neighbour, on, run, sensor, sensors, strike, supply, supply_channel, voltage",
            ],
            reading.Errors.Select(error => error.ToString()));
    }

    [Theory]
    [InlineData("[run\nseed = 1", "x.toml:1: not TOML")]
    [InlineData("[run]\nseed = 1\nseed = 2", "x.toml:3: `seed` is given twice in [run], first on line 2")]
    [InlineData("run = 3", "x.toml:1: `run` is 3; a table [run] was expected")]
    [InlineData("on = [3]", "x.toml:1: `on` is a list; a list of tables [[on]] with from_s and to_s was expected")]
    [InlineData("[run]\nwarm_start = 1", "x.toml:2: `run.warm_start` is 1; true or false was expected")]
    [InlineData("[machine]\nstroke = \"1 mm\"\npeak_pull_n = 3", "x.toml:3: `stroke` and `peak_pull_n` are both given in [machine]")]
    [InlineData("[supply]\nkind = \"full-wave\"", "x.toml:2: `supply.kind` does not go with strokes_per_cycle 1 in [feeder.drive]")]
    [InlineData("[sensor]\nnoise_g = nan", "x.toml:2: `sensor.noise_g` is nan; a number from 0 to 10 g was expected")]
    [InlineData("[sensor]\noffset_g = [1, 2]", "x.toml:2: `sensor.offset_g` is a list; a list of 3 numbers was expected")]
    [InlineData("[strike]\nfrom_s = 2\nto_s = 1", "x.toml:3: `strike.to_s` is not after `from_s`")]
    [InlineData("[feeder.stroke]\nlow = \"2 mm\"", "x.toml:2: `high` 1.780 mm (0.0701 in) is not above `low` 2.000 mm")]
    [InlineData("[feeder.stroke]\nhigh = \"2 mm\"", "x.toml:2: `limit` of the usual feeder 1.900 mm (0.0748 in) is not above `high` 2.000 mm")]
    [InlineData("[feeder.sensor]\nfull_scale_g = 8", "x.toml:1: unknown table `sensor` in [feeder]")]
    [InlineData("[feeder]\nmodel = \"hevy\"", "x.toml:2: unknown model `hevy`; did you mean `heavy`?")]
    public void A_single_error_is_one_line(string text, string start)
    {
        var error = Assert.Single(ScenarioFile.Parse(text, "x.toml").Errors).ToString();
        Assert.StartsWith(start, error, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error);
    }

    [Fact]
    public void Every_error_of_syntax_is_told_beside_the_others()
    {
        var errors = ScenarioFile.Parse("[run]\nseed == 1\nrate_hz = 1\n[machine]\nstroke = 1.7 mm\n[supply]\nwander_hz = 0,5\n", "x.toml").Errors;
        Assert.Equal([2, 3, 5, 7], errors.Select(error => error.Line));
        Assert.Equal("x.toml:5: a length without quotes; stroke = \"1.7 mm\" was expected", errors[2].ToString());
    }

    [Theory]
    [InlineData("[drive]\nsupply_hz = 600", "supply_hz")]
    [InlineData("[stroke]\nlow = \"1.7 cm\"", "low")]
    [InlineData("[mounting]\nline_angle_deg = 91", "line_angle_deg")]
    [InlineData("[springs]\nrear = [ { thickness_mm = 4.0, count = 0 } ]", "rear.count")]
    [InlineData("[masses]\ntray_kg = 0", "tray_kg")]
    [InlineData("[air_gap]\nrest_mm = \"2\"", "rest_mm")]
    public void The_feeders_tables_say_of_a_slip_what_a_feeder_file_says(string table, string key)
    {
        using var folder = new ConfigurationFolder();
        var own = FeederFile.Read(folder.Write("own.toml", table)).Errors;
        var within = ScenarioFile.Parse($"[feeder.{table[1..]}", "x.toml").Errors;
        var said = Assert.Single(own, error => error.Message.Contains($".{key}` is ", StringComparison.Ordinal));
        Assert.Contains(new ConfigurationError("x.toml", said.Line, $"`feeder.{said.Message[1..]}"), within);
    }

    [Fact]
    public void A_feeder_of_a_model_takes_the_models_band()
    {
        var feeder = Good("[feeder]\nmodel = \"light\"\n[feeder.drive]\nsupply_hz = 60\n").Feeder;
        Assert.Equal(("light", 60), (feeder.Model, feeder.Drive.NominalHz));
        Assert.Equal(1.651e-3, feeder.Band.Limit.Metres, 9);
    }

    [Fact]
    public void A_file_that_is_not_there_is_one_line() =>
        Assert.EndsWith("nowhere.toml: there is no such file; check the path", Assert.Single(ScenarioFile.Read("nowhere.toml").Errors).ToString(), StringComparison.Ordinal);

    [Fact]
    public void No_modes_at_all_can_be_asked_for() => Assert.Empty(Good("mode = []").Machine.Modes);

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
            Assert.True(reading.Value is null == reading.Errors.Count > 0, $"seed {seed}");
        }
    }

    private static FeederScenario Good(string text)
    {
        var reading = ScenarioFile.Parse(text, "good.toml");
        Assert.Empty(reading.Errors);
        return reading.Value!;
    }
}
