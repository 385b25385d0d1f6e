using System.Globalization;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Influx;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Influx;

public sealed class InfluxTableTests
{
    /// <summary>Escapes are those of the line protocol's published reference, "Special characters": comma, equals sign and space in tags; quote and backslash in text.</summary>
    [Fact]
    public void A_row_becomes_a_line_of_line_protocol_whatever_the_culture()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            CultureInfo.CurrentCulture = comma;
            var row = new WaitingRow(1_000_007, 1_774_785_600_123, [new("feeder", "Bin 4, sand=wet"), new("pp_mm", 1.65), new("noise_mm", 2e-7), new("strike", 0L), new("reason", "a \"b\" \\ c\nd")]);
            Assert.Equal(
                "strokewatch_window,feeder=Bin\\ 4\\,\\ sand\\=wet id=1000007i,noise_mm=2E-07,pp_mm=1.65,reason=\"a \\\"b\\\" \\\\ c d\",strike=0i 1774785600123000007",
                new InfluxTable("window", "feeder").Line(row));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Rows_of_one_millisecond_stay_apart_and_a_tag_s_last_backslash_does_not_eat_what_follows()
    {
        static string Line(long id) => new InfluxTable("event", "feeder").Line(new(id, 1, [new("feeder", "odd\\ "), new("text", "x")]));
        Assert.Equal("strokewatch_event,feeder=odd id=1i,text=\"x\" 1000001", Line(1));
        Assert.Equal("strokewatch_event,feeder=odd id=2i,text=\"x\" 1000002", Line(2));
    }
}
