using System.Globalization;
using Xunit;

namespace StrokeWatch.Replays.Tests;

public sealed class CultureTests
{
    [Theory]
    [ClassData(typeof(CaseNames))]
    public async Task A_decimal_comma_culture_changes_no_byte_and_no_word(string name)
    {
        var (json, text) = (Replayed.Run(name), Replayed.Run(name, json: false));

        // A culture flows with its task: other tests keep theirs.
        var (commaJson, commaText, shown) = await Task.Run(() =>
        {
            CultureInfo.CurrentCulture = CultureInfo.CurrentUICulture = DecimalComma();
            return (Replayed.Run(name), Replayed.Run(name, json: false), 1234.5.ToString("N1", null));
        });

        Assert.Equal("1.234,5", shown);
        Assert.NotEmpty(text.Text);
        Assert.Equal(json.Bytes, commaJson.Bytes);
        Assert.Equal(text.Text, commaText.Text);
        Assert.Equal((json.Status, json.Error), (commaJson.Status, commaJson.Error));
    }

    /// <summary>The program runs without culture data, so that the culture is made here: comma, point and a true minus sign.</summary>
    private static CultureInfo DecimalComma()
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = culture.NumberFormat.PercentDecimalSeparator = ",";
        culture.NumberFormat.NumberGroupSeparator = culture.NumberFormat.PercentGroupSeparator = ".";
        culture.NumberFormat.NegativeSign = "\u2212";
        culture.TextInfo.ListSeparator = ";";
        return culture;
    }
}
