using StrokeWatch.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

public sealed class CaptureOptionsTests
{
    [Theory]
    [InlineData("4", "4")]
    [InlineData("z=4", "z=4")]
    [InlineData(" X = 2 , y=3,z=4", "x=2,y=3,z=4")]
    [InlineData("z=Acceleratio", "z=Acceleratio")]
    [InlineData("time=1,x=tray along", "t=1,x=tray along")]
    [InlineData("t=NONE", "t=none")]
    [InlineData("accel top,accel bottom", "accel top,accel bottom")]
    [InlineData("t=1,front.x=2,front.z=3,Rear-Left.x=4,body.z=az", "t=1,front.x=2,front.z=3,rear-left.x=4,body.z=az")]
    [InlineData("front=2,front=3,rear=5", "front=2,front=3,rear=5")]
    public void A_list_of_columns_is_read(string text, string written)
    {
        Assert.True(CaptureOptions.TryParseColumns(text, out var columns, out var error), error);
        Assert.Equal(written, string.Join(',', columns));
        Assert.Null(error);
    }

    [Theory]
    [InlineData(null, "missing")]
    [InlineData("", "missing")]
    [InlineData("x=", "missing")]
    [InlineData("2,,3", "missing")]
    [InlineData("0", "count from 1")]
    [InlineData("-3", "count from 1")]
    [InlineData("w=3", "no axis")]
    [InlineData("x=2,x=3", "exclude")]
    [InlineData("x=2,z=2", "exclude")]
    [InlineData("t=1,t=none", "exclude")]
    [InlineData("1,2,3,4,5", "at most three")]
    [InlineData("front=1,front=2,front=3,front=4", "at most three axes of a sensor")]
    [InlineData("front.x=1,front.x=2", "exclude")]
    [InlineData("front.x=1,rear.x=1", "exclude")]
    [InlineData("middle.x=1", "'middle.x' is no axis")]
    [InlineData("front.t=1", "'front.t' is no axis")]
    public void A_wrong_list_is_an_error_of_one_line(string? text, string words)
    {
        Assert.False(CaptureOptions.TryParseColumns(text, out var columns, out var error));
        Assert.Empty(columns);
        Assert.Contains(words, error, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error!);
    }

    [Theory]
    [InlineData("ms", TimeUnit.Milliseconds)]
    [InlineData("µs", TimeUnit.Microseconds)]
    [InlineData("μs", TimeUnit.Microseconds)]
    [InlineData(" Seconds ", TimeUnit.Seconds)]
    [InlineData("ns", TimeUnit.Nanoseconds)]
    public void Units_of_time_are_read_and_written(string text, TimeUnit unit)
    {
        Assert.True(TimeUnits.TryParse(text, out var read));
        Assert.Equal(unit, read);
        Assert.True(TimeUnits.TryParse(TimeUnits.Name(unit), out read) && read == unit);
        Assert.False(TimeUnits.TryParse("h", out _));
    }
}
