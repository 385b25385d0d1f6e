using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Html;
using StrokeWatch.Session;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on the machine itself: what its feeder file says, and what that leaves out.</summary>
internal static class MachinePart
{
    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        var feeder = input.Feeder;
        var missing = Missing(feeder).ToList();
        return new("The machine",
        [
            new RecordFacts([.. Facts(feeder, input.Book)]),
            new RecordText(
                $"As the feeder file {Path.GetFileName(input.FeederFile)} describes it."
                + (missing.Count > 0 ? $" It says nothing of {(missing.Count == 1 ? missing[0] : $"{string.Join(", ", missing.SkipLast(1))} and {missing[^1]}")}." : ""),
                RecordTextKind.Detail),
        ]);
    }

    private static IEnumerable<(string Name, string Value)> Facts(FeederDescription feeder, BookSummary? book)
    {
        var (drive, band) = (feeder.Drive, feeder.Band);
        yield return ("Feeder", feeder.Name);
        yield return ("Model", feeder.Model ?? "none named in the feeder file");
        yield return ("Drive", $"{Figure.Of(drive.NominalHz, 2)} Hz: supply {Figure.Of(drive.SupplyHz, 2)} Hz, {(drive.StrokesPerCycle == 1 ? "one stroke" : "two strokes")} a cycle, {(drive.Free ? "variable-frequency drive" : "locked to the mains")}");
        yield return ("Stroke band", $"{Figure.Both(band.Low.Metres)} to {Figure.Both(band.High.Metres)}, peak to peak along the line of action, empty tray, full voltage");
        yield return ("Over-stroke limit", Figure.Both(band.Limit.Metres));
        yield return ("Line of action", feeder.LineAngleDegrees is { } angle ? $"{Figure.Of(angle, 1)}° above the tray's x axis" : "found from the vibration itself");
        if (feeder.Springs is { } springs)
        {
            yield return ("Front springs", $"{Stacks.Words(springs.Front)}; set when the feeder was built, never changed");
            yield return ("Rear springs", $"{Stacks.Words(springs.Rear)}{(springs.MaxRearLeaves is { } most ? $"; the clamp takes {Figure.Count(most)} leaves" : "")}{Since(springs, book)}");
            yield return ("Leaves", $"free length {Both(springs.LengthMetres)}, width {Both(springs.WidthMetres)}, modulus {Figure.Of(springs.Modulus / 1e9, 1)} GPa"
                + (springs.EnduranceStress is { } stress ? $", endure {Figure.Of(stress / 1e6, 0)} MPa" : ", endurance stress not given"));
        }

        if (feeder.Masses is { } masses)
        {
            yield return ("Masses", $"tray with armature {Weight(masses.TrayKilograms)}, body with magnet {Weight(masses.BodyKilograms)}");
        }

        if (feeder.RestGapMetres is { } gap)
        {
            yield return ("Air gap at rest", Figure.Both(gap));
        }

        if (feeder.Supply?.FullVolts is { } volts)
        {
            yield return ("Full voltage", $"{Figure.Of(volts, 1)} V true rms");
        }
    }

    /// <summary>Says which other rear stack the machine book knows to be in.</summary>
    private static string Since(SpringDescription springs, BookSummary? book) =>
        book?.LeafSets is [.., { Entry: { Rear: { } rear } entry }] && StackText.Read(rear, out _) is { } stack && !Stacks.Same(stack, springs.Rear)
            ? $"; by the machine book {Stacks.Words(stack)} since {RecordDates.Day(entry.Utc)}"
            : "";

    private static IEnumerable<string> Missing(FeederDescription feeder)
    {
        if (feeder.Springs is null)
        {
            yield return "the springs ([springs])";
        }

        if (feeder.Masses is null)
        {
            yield return "the masses ([masses])";
        }

        if (feeder.RestGapMetres is null)
        {
            yield return "the air gap ([air_gap])";
        }

        if (feeder.Supply?.FullVolts is null)
        {
            yield return "the full voltage ([supply])";
        }
    }

    private static string Both(double metres) => $"{Figure.Millimetres(metres, 1)} mm ({Figure.Inches(metres, 3)} in)";

    private static string Weight(double kilograms) => $"{Figure.Of(kilograms, 1)} kg ({Figure.Of(kilograms / KilogramsPerPound, 1)} lb)";

    /// <summary>Exact by the international yard and pound agreement of 1959.</summary>
    private const double KilogramsPerPound = 0.45359237;
}
