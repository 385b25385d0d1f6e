using StrokeWatch.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class FeederFileErrorTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Five_errors_are_reported_at_once_each_at_its_line()
    {
        var errors = Errors("""
            name = "Sand feeder"
            [drive]
            supply_hz = 600
            strokes_per_cycle = "one"
            frequncy = "supply"
            [stroke]
            low = "1.65 cm"
            high = 1.78 mm
            """);
        Assert.Equal(
            [
                "3: `drive.supply_hz` is 600; a number from 10 to 500 Hz (usually 50 or 60) was expected",
                "4: `drive.strokes_per_cycle` is \"one\"; a whole number from 1 to 2 was expected",
                "5: unknown key `frequncy` in [drive]; did you mean `frequency`? Known here: frequency, strokes_per_cycle, supply_hz",
                "7: `stroke.low` is \"1.65 cm\"; a length in quotes with its unit mm, in or mil was expected, such as \"1.65 mm\"",
                "8: a length without quotes; high = \"1.78 mm\" was expected",
            ],
            errors);
    }

    [Fact]
    public void A_file_that_breaks_off_within_an_escape_is_told_at_its_line_and_the_rest_is_read()
    {
        var errors = Errors("name = \"Sand feeder\"\n[drive]\nsupply_hz = 600\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1 mm\"\nhigh = \"2 mm\"\nlimit = \"\\u00");
        Assert.StartsWith("3: `drive.supply_hz` is 600", errors[0], StringComparison.Ordinal);
        Assert.StartsWith("8: a \\u or \\U escape is not whole", Assert.Single(errors.Skip(1)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("supply_hz = nan", "3: `drive.supply_hz` is nan; a number from 10 to 500")]
    [InlineData("supply_hz = inf", "3: `drive.supply_hz` is inf; a number from 10 to 500")]
    [InlineData("supply_hz = 1e999", "3: `drive.supply_hz` is 1e999; a number from 10 to 500")]
    [InlineData("supply_hz = 99999999999999999999", "3: unable to parse integer `99999999999999999999`; a number that fits")]
    [InlineData("supply_hz = true", "3: `drive.supply_hz` is true; a number from 10 to 500")]
    [InlineData("supply_hz = [50]", "3: `drive.supply_hz` is a list; a number from 10 to 500")]
    [InlineData("supply_hz = 1979-05-27", "3: `drive.supply_hz` is 1979-05-27; a number from 10 to 500")]
    [InlineData("supply_hz = 50,0", "3: a number with a decimal comma; a decimal point was expected: 50.0")]
    [InlineData("supply_hz = ", "3: not TOML")]
    [InlineData("supply_hz 50", "3: not TOML; `key = value`, `[table]` or a `#` comment was expected")]
    [InlineData("supply_hz = \"fifty", "3: text without its closing quote; both quotes were expected on one line")]
    public void A_wrong_number_is_one_error_at_its_line(string line, string expected)
    {
        var error = Assert.Single(Errors($"name = \"Soda ash feeder\"\n[drive]\n{line}\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1 mm\"\nhigh = \"2 mm\""));
        Assert.StartsWith(expected, error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[strok", "2: not TOML: unexpected token found `end of line` while expecting `]`")]
    [InlineData("[strok]", "2: unknown table `strok`; did you mean `stroke`?")]
    [InlineData("colour = 1", "2: unknown key `colour`")]
    [InlineData("[stroke]\nstrok = 1", "3: unknown key `strok` in [stroke]; did you mean `low`? Known here: high, limit, low")]
    [InlineData("[sensor]\nfull_scale_g = 0", "3: `sensor.full_scale_g` is 0; a number from 0.1 to 10000 g")]
    [InlineData("[mounting]\nline_angle_deg = 91", "3: `mounting.line_angle_deg` is 91; a number from -90 to 90")]
    [InlineData("[mounting]\nline_angle_deg = \"automatic\"", "3: `mounting.line_angle_deg` is \"automatic\"; \"auto\" or a number from -90 to 90 was expected")]
    [InlineData("[masses]\ntray_kg = 3", "2: `body_kg` is missing in [masses]")]
    [InlineData("model = \"hevy\"", "2: unknown model `hevy`; did you mean `heavy`?")]
    [InlineData("model = 5", "2: `model` is 5; the name of a row of the models file, in quotes, was expected")]
    public void Each_kind_of_error_has_its_words(string lines, string expected)
    {
        var errors = Errors($"name = \"Soda ash feeder\"\n{lines}\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1");
        Assert.Contains(errors, e => e.StartsWith(expected, StringComparison.Ordinal));
        Assert.All(errors, e => Assert.DoesNotContain('\n', e));
    }

    [Theory]
    [InlineData("low = \"2 mm\"\nhigh = \"1 mm\"", "6: `high` 1.000 mm (0.0394 in) is not above `low` 2.000 mm (0.0787 in); low < high was expected")]
    [InlineData("low = \"1 mm\"\nhigh = \"1 mm\"", "6: `high` 1.000 mm")]
    [InlineData("low = \"1 mm\"\nhigh = \"2 mm\"\nlimit = \"1.9 mm\"", "7: `limit` 1.900 mm (0.0748 in) is not above `high` 2.000 mm (0.0787 in)")]
    [InlineData("low = \"1 mm\"", "4: `high` is missing in [stroke]")]
    [InlineData("low = \"-1 mm\"\nhigh = \"1 mm\"", "5: `stroke.low` is \"-1 mm\"; a length from 0.001 mm")]
    [InlineData("low = \"1 mm\"\nhigh = \"2 mm\"\nlow = \"1.1 mm\"", "7: `low` is given twice in [stroke], first on line 5; one of the two was expected")]
    public void The_band_must_rise(string band, string expected)
    {
        var error = Assert.Single(Errors($"[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\n{band}"));
        Assert.StartsWith(expected, error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_list_that_is_not_closed_is_one_error_where_it_opens_and_what_follows_is_still_read()
    {
        var errors = Errors(Examples.Least + """

            [springs]
            modulus_gpa = 205.0
            length_mm = 120
            width_mm = 0.5
            front = [ { thickness_mm = 4.0, count = 4 }
            rear = [ { thickness_mm = 4.0, count = 0 } ]
            max_rear_leavs = 10
            """);
        Assert.Collection(
            errors,
            e => Assert.StartsWith("10: `springs.width_mm` is 0.5", e, StringComparison.Ordinal),
            e => Assert.StartsWith("11: what opens on this line is not closed by line 12", e, StringComparison.Ordinal),
            e => Assert.StartsWith("12: `springs.rear.count` is 0; a whole number from 1 to 1000", e, StringComparison.Ordinal),
            e => Assert.StartsWith("13: unknown key `max_rear_leavs` in [springs]; did you mean `max_rear_leaves`?", e, StringComparison.Ordinal));
    }

    [Fact]
    public void A_table_given_twice_names_both_lines()
    {
        var error = Assert.Single(Errors(Examples.Least + "\n[drive]\nsupply_hz = 60"));
        Assert.Equal("7: `drive` is given twice in the file, first on line 1; one of the two was expected", error);
    }

    [Fact]
    public void More_leaves_than_the_clamp_takes_are_refused()
    {
        var error = Assert.Single(Errors(Examples.Contract.Replace("max_rear_leaves = 10", "max_rear_leaves = 4", StringComparison.Ordinal)));
        Assert.EndsWith("`springs.max_rear_leaves` is 4, but `rear` holds 5 leaves; 5 or more was expected", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_file_a_directory_a_binary_file_and_an_empty_file_give_clear_lines()
    {
        File.WriteAllBytes(folder.At("binary.toml"), [0x7f, 0x45, 0x4c, 0x46, 0, 0, 1, 2]);
        File.WriteAllBytes(folder.At("latin.toml"), [0x6e, 0xe9]);
        File.WriteAllBytes(folder.At("large.toml"), new byte[2 << 20]);
        var empty = folder.Write("empty.toml", "");
        AssertOne("missing.toml", "there is no such file; check the path");
        AssertOne("nowhere/missing.toml", "there is no such file; check the path");
        AssertOne(".", "is a directory; a TOML file was expected");
        AssertOne("binary.toml", "is not text; a TOML file in UTF-8 was expected");
        AssertOne("latin.toml", "is not UTF-8 text; save it as UTF-8");
        AssertOne("large.toml", "is larger than 1 MiB; a TOML file was expected");
        Assert.Equal(
            [$"{empty}: [drive] is missing; a table [drive] with supply_hz and strokes_per_cycle was expected", $"{empty}: [stroke] is missing; a table [stroke] with low and high, or a model, was expected"],
            FeederFile.Read(empty).Errors.Select(e => e.ToString()));

        void AssertOne(string name, string words) =>
            Assert.Equal($"{folder.At(name)}: {words}", Assert.Single(FeederFile.Read(folder.At(name)).Errors).ToString());
    }

    [Fact]
    public void Rubbish_of_any_kind_gives_errors_and_never_an_exception()
    {
        const int Seed = 20261;
        var random = new Random(Seed);
        for (var run = 0; run < 300; run++)
        {
            var text = Examples.Contract.ToCharArray();
            for (var change = 0; change < 1 + random.Next(12); change++)
            {
                text[random.Next(text.Length)] = "[]{}=\"'#,.\n\\ a1-"[random.Next(16)];
            }

            var path = folder.Write("rubbish.toml", new string(text));
            var result = FeederFile.Read(path);
            Assert.True((result.Value is null) == (result.Errors.Count > 0), $"seed {Seed}, run {run}");
            Assert.All(result.Errors, e => Assert.DoesNotContain('\n', e.ToString()));
        }
    }

    private List<string> Errors(string text)
    {
        var path = folder.Write("feeder.toml", text);
        var result = FeederFile.Read(path);
        Assert.Null(result.Value);
        return [.. result.Errors.Select(e => e.ToString()[(path.Length + 1)..])];
    }
}
