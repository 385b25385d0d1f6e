using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Pdf;
using StrokeWatch.Reports.Records;
using StrokeWatch.Tests.Reports.Html;
using StrokeWatch.Tests.Reports.Records;
using Xunit;

namespace StrokeWatch.Tests.Reports.Pdf;

public sealed class PdfLooksTests
{
    [Fact]
    public void Every_look_that_a_record_s_drawings_use_is_known_on_paper()
    {
        using var tests = new RecordWritersTests();
        var looks = new Looks();
        foreach (var picture in RecordBuilder.Make(tests.Full()).Sections.SelectMany(section => section.Blocks).OfType<RecordPicture>())
        {
            picture.Draw(looks);
        }

        // Those of the lanes, which a healthy capture does not have.
        foreach (var name in (string[])["stopped", "strike-plain", "clipped", "gap", "over-stroke", "start-and-coast-down"])
        {
            StrokePlot.Draw(looks, Pages.Replay(name), RecordPicture.Width);
        }

        Assert.True(looks.Used.Count > 12);
        Assert.All(looks.Used, look => Assert.True(PdfLooks.Knows(look), look));
    }

    private sealed class Looks : IDrawingSurface
    {
        public HashSet<string> Used { get; } = [];

        public void Begin(double width, double height, string says, string variant) => Assert.Equal(RecordPicture.Width, width);

        public void Path(string steps, string look) => Used.Add(look);

        public void PathAt(double x, double y, string steps, string look) => Used.Add(look);

        public void Box(double left, double top, double right, double bottom, string look) => Used.Add(look);

        public void Dot(double x, double y, double radius, string look) => Used.Add(look);

        public void Text(double x, double y, string text, string anchor, string look) => Assert.NotEmpty(text);

        public void End()
        {
        }
    }
}
