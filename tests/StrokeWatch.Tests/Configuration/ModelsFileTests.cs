using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class ModelsFileTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory] // Common practice, no source: best stroke of smaller and of larger half-wave feeders; 0.005 in over the top does damage.
    [InlineData("light", 0.055, 0.060, 0.065)]
    [InlineData("heavy", 0.065, 0.070, 0.075)]
    public void Half_wave_bands_are_those_of_common_practice(string model, double low, double high, double limit)
    {
        var row = BuiltIn()[model];
        Assert.Equal(1, row.StrokesPerCycle);
        Assert.Equal(low, row.Low!.Value.Inches, 9);
        Assert.Equal(high, row.High!.Value.Inches, 9);
        Assert.Equal(limit, row.Limit!.Value.Inches, 9);
    }

    [Theory] // 4π²f²x: the same peak acceleration at twice the frequency.
    [InlineData("light")]
    [InlineData("medium")]
    [InlineData("heavy")]
    public void A_full_wave_class_has_the_peak_acceleration_of_its_half_wave_class(string model)
    {
        var half = BuiltIn()[model];
        var full = BuiltIn()[model + "-full-wave"];
        Assert.Equal(2, full.StrokesPerCycle);
        foreach (var (single, twice) in new[] { (half.Low, full.Low), (half.High, full.High), (half.Limit, full.Limit) })
        {
            Assert.Equal(Sinusoid.PeakAcceleration(single!.Value, 60), Sinusoid.PeakAcceleration(twice!.Value, 120), 6);
        }
    }

    [Fact]
    public void A_model_gives_what_the_feeder_file_leaves_out()
    {
        var feeder = FeederFile.Read(folder.Write("f.toml", "model = \"heavy\"\n[drive]\nsupply_hz = 50")).Value!;
        Assert.Equal(1, feeder.Drive.StrokesPerCycle);
        Assert.Equal(65, feeder.Band.Low.Inches * 1000, 9);
        Assert.Equal(75, feeder.Band.Limit.Inches * 1000, 9);
    }

    [Fact]
    public void A_value_of_the_feeder_file_wins_over_the_models_one_by_one()
    {
        var feeder = FeederFile.Read(folder.Write("f.toml", "model = \"heavy\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 2\n[stroke]\nlow = \"60 mil\"")).Value!;
        Assert.Equal(2, feeder.Drive.StrokesPerCycle);
        Assert.Equal(60, feeder.Band.Low.Inches * 1000, 9);
        Assert.Equal(70, feeder.Band.High.Inches * 1000, 9);
    }

    [Fact]
    public void A_top_above_the_models_limit_asks_for_a_limit()
    {
        var error = Assert.Single(FeederFile.Read(folder.Write("f.toml", "model = \"light\"\n[drive]\nsupply_hz = 50\n[stroke]\nhigh = \"70 mil\"")).Errors);
        Assert.Equal(5, error.Line);
        Assert.Contains("`limit` of the model 1.651 mm", error.Message);
    }

    [Fact]
    public void A_models_file_beside_the_feeder_file_may_be_named_and_its_errors_carry_its_own_name()
    {
        folder.Write("own.toml", "[sand]\nsupply_hz = 50\nstrokes_per_cycle = 1\nlow = \"1 mm\"\nhigh = \"1.2 mm\"\n[ash]\nlow = \"3 mm\"\nhigh = \"2 mm\"\nhihg = 1");
        var feeder = folder.Write("f.toml", "model = \"sand\"\nmodels = \"own.toml\"");
        var errors = FeederFile.Read(feeder).Errors;
        Assert.Equal([8, 9], errors.Select(e => e.Line));
        Assert.All(errors, e => Assert.Equal(folder.At("own.toml"), e.File));

        folder.Write("own.toml", "[sand]\nsupply_hz = 50\nstrokes_per_cycle = 1\nlow = \"1 mm\"\nhigh = \"1.2 mm\"");
        var read = FeederFile.Read(feeder);
        Assert.Empty(read.Errors);
        Assert.Equal(1.2 + 0.127, read.Value!.Band.Limit.Millimetres, 9);
        Assert.Equal(50, read.Value.Drive.SupplyHz);
    }

    [Fact]
    public void A_model_that_leaves_the_band_open_is_named()
    {
        folder.Write("own.toml", "[sand]\nsupply_hz = 50\nstrokes_per_cycle = 1");
        var error = Assert.Single(FeederFile.Read(folder.Write("f.toml", "model = \"sand\"\nmodels = \"own.toml\"")).Errors);
        Assert.Contains("model `sand` gives no stroke band", error.Message);
        Assert.Equal(1, error.Line);
    }

    private static IReadOnlyDictionary<string, ModelRow> BuiltIn()
    {
        var errors = new ConfigurationErrors("models.toml");
        var rows = ModelsFile.BuiltIn(errors);
        Assert.Empty(errors);
        return rows;
    }
}
