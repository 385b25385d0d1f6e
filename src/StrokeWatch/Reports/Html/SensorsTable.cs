using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Reports.Html;

/// <summary>What several sensors showed, how they differ and how each stands, as three tables.</summary>
internal static class SensorsTable
{
    /// <summary>Writes the tables.</summary>
    public static void Write(Markup page, SeveralSummary several)
    {
        var table = new PageTable(page, SensorsWords.SensorColumns);
        foreach (var sensor in several.Sensors)
        {
            table.Row(SensorsWords.Place(sensor), SensorsWords.Stroke(sensor), SensorsWords.Phase(sensor), SensorsWords.Angle(sensor), Figure.Count(sensor.WindowsGood));
        }

        table.End();
        table = new PageTable(page, SensorsWords.SpreadColumns);
        table.Row(SensorsWords.FrontRear, SensorsWords.Difference(several.FrontRear), SensorsWords.Share(several.FrontRear));
        table.Row(SensorsWords.LeftRight, SensorsWords.Difference(several.LeftRight), SensorsWords.Share(several.LeftRight));
        table.Row(SensorsWords.TrayBody, SensorsWords.Relative(several.Relative), "");
        table.End();
        table = new PageTable(page, SensorsWords.MountingColumns);
        foreach (var sensor in several.Sensors)
        {
            table.Row(SensorPlaces.Name(sensor.Place), SensorsWords.Tilt(sensor.Mounting), SensorsWords.Drive(sensor.Mounting), SensorsWords.OutOfPlane(sensor.Mounting));
        }

        table.End();
        page.Leaf("p", SensorsWords.Assumed, ("class", "detail"));
    }
}
