using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class TuneAdviseTests : IDisposable
{
    private readonly TuneFiles files = new();

    public void Dispose() => files.Dispose();

    [Fact]
    public void One_trial_with_a_coast_down_is_enough_to_advise()
    {
        var (status, json, errors) = files.Advise(TuneFiles.Trial, "--json", "-");
        Assert.Equal((1, ""), (status, errors));
        var advice = JsonNode.Parse(json)!;
        Assert.Equal("normal", (string)advice["side"]!);
        Assert.Equal(66.1, (double)advice["natural_frequency_hz"]!, 3);
        Assert.Equal(66.1 / 60, (double)advice["tuning_ratio"]!, 4);
        var recommendation = advice["recommendation"]!;
        Assert.Equal("change-rear-stack", (string)recommendation["action"]!);
        double low = (double)recommendation["predicted_low_mm"]!, middle = (double)recommendation["predicted_pp_mm"]!, high = (double)recommendation["predicted_high_mm"]!;
        Assert.True(low < middle && middle < high && high < 1.95, json);
        Assert.InRange(middle, 1.55, 1.78);
        Assert.InRange((double)recommendation["over_limit_probability"]!, 0, 0.01);
        Assert.All(advice["alternatives"]!.AsArray(), other => Assert.InRange((double)other!["over_limit_probability"]!, 0, 0.01));

        // Softer than before, by the cubes of the thicknesses (check-values 7): 5 leaves of 4 mm are 320.
        var cubes = recommendation["rear"]!.AsArray().Sum(layer => (int)layer!["count"]! * Math.Pow((double)layer["thickness_mm"]!, 3));
        Assert.InRange(cubes, 280, 319);
        Assert.InRange(recommendation["rear"]!.AsArray().Sum(layer => (int)layer!["count"]!), 1, 10);

        // The guided leaf's 3Etd/L² (check-values 7) at the clamps, with the body's share of the motion.
        var thickest = recommendation["rear"]!.AsArray().Max(layer => (double)layer!["thickness_mm"]!);
        Assert.Equal(3 * 205e3 * thickest * 0.75 * middle / (120 * 120), (double)recommendation["leaf_stress_mpa"]!, 12.0);
        Assert.Equal(285, (int)advice["stacks_examined"]!);
        Assert.NotEmpty(advice["because"]!.AsArray());
        Assert.Contains("leaf", string.Join(" ", advice["cautions"]!.AsArray()) + string.Join(" ", advice["warnings"]!.AsArray()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_measured_stroke_in_the_band_needs_nothing_and_only_a_measured_one()
    {
        var (status, json, _) = files.Advise(TuneFiles.Trial.Replace("1.50 mm", "1.70 mm", StringComparison.Ordinal), "--json", "-");
        Assert.Equal(0, status);
        Assert.Equal("none", (string)JsonNode.Parse(json)!["recommendation"]!["action"]!);
        (status, json, _) = files.Advise(TuneFiles.Trial.Replace("1.50 mm", "1.81 mm", StringComparison.Ordinal), "--json", "-");
        Assert.Equal(1, status);
        Assert.NotEqual("none", (string)JsonNode.Parse(json)!["recommendation"]!["action"]!);

        // 1.50 mm at 94 % of the voltage would be 1.70 mm at full voltage: not measured there.
        (status, json, _) = files.Advise(TuneFiles.Trial + "\nvoltage_ratio = 0.94", "--json", "-");
        Assert.Equal(1, status);
        Assert.Equal("measure-first", (string)JsonNode.Parse(json)!["recommendation"]!["action"]!);
    }

    [Fact]
    public void Without_a_coast_down_it_is_said_what_is_not_known()
    {
        var (status, json, _) = files.Advise("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\nstroke = \"0.059 in\"", "--json", "-");
        var advice = JsonNode.Parse(json)!;
        Assert.Equal((1, "unknown", "measure-first"), (status, (string)advice["side"]!, (string)advice["recommendation"]!["action"]!));
        Assert.Null(advice["tuning_ratio"]);
        Assert.Null(advice["natural_frequency_hz"]);
        Assert.Contains("natural_frequency_hz", (string)advice["natural_frequency_reason"]!, StringComparison.Ordinal);
        Assert.All(advice["alternatives"]!.AsArray(), other => Assert.InRange((double)other!["over_limit_probability"]!, 0, 0.01));
    }

    [Fact]
    public void A_feeder_on_the_reverse_side_is_brought_back_first()
    {
        var (status, json, _) = files.Advise(TuneFiles.Trial.Replace("66.1", "56.8", StringComparison.Ordinal), "--json", "-");
        var advice = JsonNode.Parse(json)!;
        Assert.Equal((1, "reverse", "add-stiffness-or-lighten-tray"), (status, (string)advice["side"]!, (string)advice["recommendation"]!["action"]!));
        Assert.Equal("normal", (string)advice["recommendation"]!["side_after"]!);
        Assert.True((double)advice["tray_mass_to_resonance_kg"]! < 0);
        Assert.True(advice["recommendation"]!["rear"]!.AsArray().Sum(layer => (int)layer!["count"]! * Math.Pow((double)layer["thickness_mm"]!, 3)) > 320);
    }

    [Fact]
    public void Where_no_stack_fits_the_nearest_is_named()
    {
        var feeder = files.Write("poor.toml", TuneFiles.Feeder.Replace("stock_mm = [3.0, 4.0, 5.0]", "stock_mm = [4.0]", StringComparison.Ordinal).Replace("max_rear_leaves = 10", "max_rear_leaves = 5", StringComparison.Ordinal));
        var (status, json, _) = TuneFiles.Run("tune", "advise", "--feeder", feeder, "--trials", files.Write("trials.toml", TuneFiles.Trial), "--json", "-");
        var advice = JsonNode.Parse(json)!;
        Assert.Equal((1, "no-stack-fits"), (status, (string)advice["recommendation"]!["action"]!));
        Assert.NotEmpty(advice["recommendation"]!["rear"]!.AsArray());
        Assert.Contains(advice["because"]!.AsArray(), because => ((string)because!).Contains("nearest", StringComparison.Ordinal));
    }

    [Fact]
    public void Each_trial_sharpens_the_range()
    {
        const string Second = "\n[[trial]]\nrear = [ { thickness_mm = 4.0, count = 4 }, { thickness_mm = 3.0, count = 2 } ]\nstroke = \"1.63 mm\"\nnatural_frequency_hz = 65.6";
        double Width(string trials)
        {
            var recommendation = JsonNode.Parse(files.Advise(trials, "--json", "-").Output)!["recommendation"]!;
            return ((double)recommendation["predicted_high_mm"]! - (double)recommendation["predicted_low_mm"]!) / (double)recommendation["predicted_pp_mm"]!;
        }

        Assert.True(Width(TuneFiles.Trial + Second) < Width(TuneFiles.Trial));
    }

    [Fact]
    public void The_words_are_the_same_under_a_decimal_comma_with_both_units_and_cautions()
    {
        var (_, text, _) = files.Advise(TuneFiles.Trial);
        var (_, comma, _) = TuneFiles.WithDecimalComma(() => files.Advise(TuneFiles.Trial));
        Assert.Equal(text, comma);
        foreach (var words in (string[])["1.500 mm (0.0591 in)", "normal side", "in the band", "isolate, lock", "dry and clean", "torque in the machine's manual", "1.5 bolt diameters", "load", "MPa"])
        {
            Assert.Contains(words, text, StringComparison.Ordinal);
        }

        var json = files.Advise(TuneFiles.Trial, "--json", "-").Output;
        Assert.Equal(json, TuneFiles.WithDecimalComma(() => files.Advise(TuneFiles.Trial, "--json", "-").Output));
        Assert.Equal(0, files.Advise(TuneFiles.Trial, "--json", files.At("advice.json")).Status - 1);
        Assert.Equal(json, File.ReadAllText(files.At("advice.json")));
    }

    [Theory]
    [InlineData("[springs]", "[springs] is missing")]
    [InlineData("[masses]", "[masses] is missing")]
    public void A_table_that_is_missing_is_one_clear_line(string table, string expected)
    {
        var text = TuneFiles.Feeder;
        var from = text.IndexOf(table, StringComparison.Ordinal);
        var to = text.IndexOf("\n[", from + 1, StringComparison.Ordinal);
        var feeder = files.Write("feeder.toml", text.Remove(from, to - from));
        var (status, _, errors) = TuneFiles.Run("tune", "advise", "--feeder", feeder, "--trials", files.Write("trials.toml", TuneFiles.Trial));
        Assert.Equal(2, status);
        Assert.Contains(expected, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "`trial` is missing")]
    [InlineData("[[trial]]\nstroke = \"1.5 mm\"", ":1: `rear` is missing")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]", ":2: `trial` has neither stroke nor capture")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\nstroke = \"1.5\"", ":3: `trial.stroke` is \"1.5\"; a length in quotes")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\nstroke = \"1.5 mm\"\nnatural_frequncy_hz = 66", ":4: unknown key `natural_frequncy_hz`")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 11 } ]\nstroke = \"1.5 mm\"", ":2: `trial.rear` holds 11 leaves; at most 10")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\nstroke = \"1.5 mm\"\ncapture = \"a.csv\"", ":4: `trial` has both stroke and capture")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\nstroke = \"1.5 mm\"\nvoltage_ratio = 2", ":4: `trial.voltage_ratio` is 2")]
    [InlineData("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\ncapture = \"none.csv\"", "none.csv")]
    public void What_is_wrong_in_the_trials_is_said_with_its_line(string trials, string expected)
    {
        var (status, _, errors) = files.Advise(trials);
        Assert.Equal(2, status);
        Assert.Contains(expected, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void Over_stroke_is_the_first_thing_said_and_where_nothing_is_to_be_changed_no_stack_is_offered()
    {
        var lines = files.Advise(TuneFiles.Trial.Replace("1.50 mm", "2.30 mm", StringComparison.Ordinal)).Output.Split('\n');
        Assert.StartsWith("  STOP       the stroke is over its limit of 1.900 mm (0.0748 in): stop the feeder", lines[1], StringComparison.Ordinal);
        Assert.Single(lines, line => line.Contains("is over its limit", StringComparison.Ordinal));

        var first = files.Advise(TuneFiles.Trial.Replace("natural_frequency_hz = 66.1", "", StringComparison.Ordinal)).Output;
        Assert.Contains("measure first", first, StringComparison.Ordinal);
        Assert.DoesNotContain("or else", first, StringComparison.Ordinal);

        var none = files.Advise(TuneFiles.Trial.Replace("1.50 mm", "0.10 mm", StringComparison.Ordinal)).Output;
        Assert.Contains("do not change leaves", none, StringComparison.Ordinal);
        Assert.DoesNotContain("mixes in leaves", none, StringComparison.Ordinal);
    }

    [Fact]
    public void Files_that_were_mixed_up_are_one_line()
    {
        var (feeder, trials) = (files.Write("feeder.toml", TuneFiles.Feeder), files.Write("trials.toml", TuneFiles.Trial));
        Assert.Contains("feeder.toml: is a feeder file, not a file of trials", Assert.Single(TuneFiles.Run("tune", "advise", "--feeder", feeder, "--trials", feeder).Error.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.Contains("trials.toml: is a file of trials, not a feeder file", Assert.Single(TuneFiles.Run("tune", "advise", "--feeder", trials, "--trials", trials).Error.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void A_trial_may_name_a_capture_which_is_measured_as_replay_does()
    {
        var scenario = files.Write("run.toml", "[run]\nduration_s = 3\n[feeder.drive]\nsupply_hz = 60\nstrokes_per_cycle = 1");
        Assert.Equal(0, TuneFiles.Run("simulate", scenario, "--out", files.At("trial.wav")).Status);
        var feeder = files.Write("feeder.toml", TuneFiles.Feeder);
        var stroke = (double)JsonNode.Parse(TuneFiles.Run("replay", files.At("trial.wav"), "--feeder", feeder, "--json", "-").Output)!["stroke"]!["pp_mm"]!;
        var (_, text, errors) = files.Advise("[[trial]]\nrear = [ { thickness_mm = 4.0, count = 5 } ]\ncapture = \"trial.wav\"\nnatural_frequency_hz = 66.1");
        Assert.Equal("", errors);
        Assert.Contains($"the stroke is {StrokeWatch.Samples.Quantities.Length.FromMillimetres(stroke)}", text, StringComparison.Ordinal);
    }
}
