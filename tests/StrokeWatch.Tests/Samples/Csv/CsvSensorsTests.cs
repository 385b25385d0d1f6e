using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

public sealed class CsvSensorsTests
{
    private static readonly SensorChoice Front = new(SensorPlace.Front, []);
    private static readonly SensorChoice Rear = new(SensorPlace.Rear, []);
    private static readonly SensorChoice Body = new(SensorPlace.Body, []);

    /// <summary>Makes a table whose cell in row r and column c is r + c/10, after a time in hundredths of a second.</summary>
    private static string Table(string header) => header + "\n" + string.Concat(Enumerable.Range(0, 40).Select(row =>
        string.Join(',', Enumerable.Range(0, header.Split(',').Length).Select(column =>
            (column == 0 ? 0.01 * row : row + (0.1 * column)).ToString("0.00", CultureInfo.InvariantCulture))) + "\n"));

    private static CaptureOptions Wanted(params SensorChoice[] sensors) => new() { Sensors = sensors };

    private static SensorChoice Of(SensorPlace place, string columns) => new(place, Reading.Columns(columns).Columns!);

    [Theory]
    [InlineData("t_s,front_x_g,front_z_g,rear_x_g,rear_z_g,body_x_g,body_y_g,body_z_g")]
    [InlineData("time_s,Front X (g),Front Z (g),rear.x [g],rear.z [g],body acc x (g),body acc y (g),body acc z (g)")]
    [InlineData("t_s,acc_front_x_g,acc_front_z_g,x_rear_g,z_rear_g,x_body_g,y_body_g,z_body_g")]
    public void Columns_named_after_place_and_axis_need_nothing_more(string header)
    {
        var reading = Reading.OfText(Table(header), Wanted(Body, Front, Rear));
        Assert.Equal([Axis.X, Axis.Y, Axis.Z, Axis.X, Axis.Z, Axis.X, Axis.Z], reading.Info.Axes);
        Assert.Equal(
            [SensorPlace.Body, SensorPlace.Body, SensorPlace.Body, SensorPlace.Front, SensorPlace.Front, SensorPlace.Rear, SensorPlace.Rear], reading.Info.Places);
        Assert.Equal([2.5, 2.6, 2.7, 2.1, 2.2, 2.3, 2.4], reading.Values.Select(values => Math.Round(values[2] / Reading.G, 6)));
        Assert.Empty(reading.Info.Guesses);
        Assert.Equal(100, reading.Info.RateHz!.Value, 6);
    }

    [Fact]
    public void Corners_are_told_from_ends_and_sides()
    {
        var header = "t_s,front_left_z_g,front-right_z_g,rearleft_z_g,rear_right_z_g,front_z_g,left_z_g";
        SensorChoice[] all = [.. SensorPlaces.All.Where(place => place is not (SensorPlace.Rear or SensorPlace.Right or SensorPlace.Body)).Select(place => new SensorChoice(place, []))];
        var reading = Reading.OfText(Table(header), Wanted(all));
        Assert.Equal([SensorPlace.Front, SensorPlace.Left, SensorPlace.FrontLeft, SensorPlace.FrontRight, SensorPlace.RearLeft, SensorPlace.RearRight], reading.Info.Places);
        Assert.Equal([0.5, 0.6, 0.1, 0.2, 0.3, 0.4], reading.Values.Select(values => Math.Round(values[0] / Reading.G, 6)));
    }

    [Fact]
    public void Each_sensor_may_have_its_own_unit()
    {
        var reading = Reading.OfText(Table("t_s,front_x_g,front_z_g,rear_x_m_s2,rear_z_m_s2"), Wanted(Front, Rear));
        Assert.Equal([3.1 * Reading.G, 3.2 * Reading.G, 3.3, 3.4], reading.Values.Select(values => Math.Round(values[3], 9)), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.Contains("its columns are in g and m_s2", Reading.ErrorOf(Table("t_s,front_x_g,front_z_m_s2"), Wanted(Front)), StringComparison.Ordinal);
    }

    [Fact]
    public void Columns_are_taken_by_name_or_number_and_what_the_user_says_wins()
    {
        var text = Table("t_s,fx_g,fz_g,rx_g,rz_g,spare_g");
        var wanted = Wanted(Of(SensorPlace.Front, "x=fx,z=fz"), Of(SensorPlace.Rear, "4,5"));
        var reading = Reading.OfText(text, wanted);
        Assert.Equal([Axis.X, Axis.Z, Axis.X, Axis.Z], reading.Info.Axes);
        Assert.Equal([1.1, 1.2, 1.3, 1.4], reading.Values.Select(values => Math.Round(values[1] / Reading.G, 6)));

        var said = wanted with { Columns = Reading.Columns("rear.z=6").Columns };
        Assert.Equal([1.1, 1.2, 1.5], Reading.OfText(text, said).Values.Select(values => Math.Round(values[1] / Reading.G, 6)));
    }

    [Fact]
    public void Columns_without_a_header_are_named_on_the_command_line()
    {
        var text = string.Join('\n', Table("a,b,c,d,e,f,g,h").Split('\n')[1..]);
        var options = Wanted(Front, Rear, Body) with
        {
            Columns = Reading.Columns("t=1,front.x=2,front.z=3,rear.x=4,rear.z=5,body.x=6,body.y=7,body.z=8").Columns,
            Unit = StrokeWatch.Samples.Quantities.AccelerationUnit.G,
            TimeUnit = TimeUnit.Seconds,
        };
        var reading = Reading.OfText(text, options);
        Assert.Equal(7, reading.Info.Axes.Count);
        Assert.Equal([1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7], reading.Values.Select(values => Math.Round(values[1] / Reading.G, 6)));
        Assert.Empty(reading.Info.Guesses);
    }

    [Theory]
    [InlineData("body=bz", "has no column 'bz', or more than one; it has 1 't_s', 2 'front_x_g', 3 'rear_x_g'")]
    [InlineData("body=2", "column 2 is taken for two sensors")]
    [InlineData("x=2", "--columns says x=2 without a sensor, but the feeder file lists several; write front.x=2")]
    [InlineData("left.x=2", "--columns names the sensor left, but the feeder file lists front, rear, body")]
    [InlineData(null, "no column is named after the sensor body that the feeder file lists, as in body_x_g")]
    public void A_missing_or_doubtful_column_is_named_with_the_columns_there_are(string? columns, string words)
    {
        var options = Wanted(Front, Rear, Body) with { Columns = columns is null ? null : Reading.Columns(columns).Columns };
        var error = Reading.ErrorOf(Table("t_s,front_x_g,rear_x_g"), options);
        Assert.Contains(words, error, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error);
    }

    [Fact]
    public void Without_a_list_of_sensors_one_place_is_a_sensor_and_several_are_an_error()
    {
        Assert.Equal([Axis.Z, Axis.X], Reading.OfText(Table("t_s,front_z_g,front_x_g")).Info.Axes);
        Assert.Equal([Axis.X, Axis.Z], Reading.OfText(Table("t_s,x_g,z_g,body_x_g")).Info.Axes);
        Assert.Contains("holds several sensors (front, rear); list them in the feeder file with [[sensors]]", Reading.ErrorOf(Table("t_s,front_x_g,rear_x_g")), StringComparison.Ordinal);
        Assert.Contains(
            "lists no sensors", Reading.ErrorOf(Table("t_s,front_x_g,rear_x_g"), Reading.Columns("front.x=2")), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_written_is_read_back()
    {
        Axis[] axes = [Axis.X, Axis.Z, Axis.X, Axis.Y, Axis.Z, Axis.X, Axis.Z];
        SensorPlace[] places = [SensorPlace.FrontLeft, SensorPlace.FrontLeft, SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Body, SensorPlace.Body];
        using var stream = new MemoryStream();
        using (var writer = new CsvCaptureWriter(stream, axes, 100, places))
        {
            var block = new SampleBlock(7, 20) { RateHz = 100 };
            for (var channel = 0; channel < 7; channel++)
            {
                for (var n = 0; n < 20; n++)
                {
                    block.Fill(channel)[n] = Reading.G * ((10 * channel) + n);
                }
            }

            block.SetCount(20);
            writer.Write(block);
        }

        var reading = Reading.OfBytes(stream.ToArray(), Wanted(new(SensorPlace.FrontLeft, []), Rear, Body));
        Assert.Equal(axes, reading.Info.Axes);
        Assert.Equal(places, reading.Info.Places);
        Assert.Equal([5, 15, 25, 35, 45, 55, 65], reading.Values.Select(values => Math.Round(values[5] / Reading.G, 6)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvCaptureWriter(new MemoryStream(), axes, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvCaptureWriter(new MemoryStream(), [Axis.X, Axis.X], 100, [SensorPlace.Rear, SensorPlace.Rear]));
    }
}
