using System.CommandLine;
using StrokeWatch.Reports.Sheets;

namespace StrokeWatch.Commands;

/// <summary>The sheets under <c>tune</c>, one line each.</summary>
internal static class TuneSheetLines
{
    private const double UsualFriction = 0.4;

    /// <summary>Builds the commands.</summary>
    public static IEnumerable<Command> Build(Surroundings surroundings)
    {
        const TuneNeeds Both = TuneNeeds.Springs | TuneNeeds.Masses;
        yield return Sheet("curve", "The tuning curve: stroke over natural frequency, with band, limit and trials.", Both, CurveSheet.Make, surroundings);
        yield return Sheet("stacks", "All rear stacks that stock and clamp allow: stiffness, share, natural frequency, stroke, stress.", Both, StacksSheet.Make, surroundings);
        yield return Sheet("gap", "Air-gap clearance over stroke: when the armature will strike.", Both | TuneNeeds.Gap, GapSheet.Make, surroundings);
        yield return Sheet("voltage", "Stroke over supply voltage.", Both, VoltageSheet.Make, surroundings);
        yield return Sheet("mass", "What weight on the tray does, and how much is left before the reverse side.", Both, MassSheet.Make, surroundings);
        yield return Conveying(surroundings);
    }

    private static Command Sheet(string name, string description, TuneNeeds needs, Func<SheetInput, Sheet> make, Surroundings surroundings)
    {
        var (feeder, trials, json, report) = (TuneLine.Feeder(), Trials(), TuneLine.Json(), Report());
        var command = new Command(name, description) { feeder, trials, json, report };
        command.SetAction(parsed =>
        {
            var (feederFile, trialsFile) = (parsed.GetValue(feeder)!, parsed.GetValue(trials));
            return TuneInput.Read($"tune {name}", feederFile, trialsFile, needs, surroundings, out var status) is { } input
                ? TuneSheetCommand.Run(make(new SheetInput(input.Feeder, input.Trials)), parsed.GetValue(json), parsed.GetValue(report), [feederFile, trialsFile], surroundings)
                : status;
        });
        return command;
    }

    private static Command Conveying(Surroundings surroundings)
    {
        var (feeder, trials, json, report) = (TuneLine.Feeder(), Trials(), TuneLine.Json(), Report());
        var angle = Numbers.Within("--angle-deg", "Line of action above the deck in degrees; that of the feeder file's [mounting] where not given.", 1, 80);
        var friction = Numbers.Within("--friction", "Coefficient of friction of material on the deck; 0.4 where not given (common practice, no source).", 0.05, 1.5);
        var command = new Command("conveying", "Throw number and conveying speed over stroke, as far as the model holds.") { feeder, trials, angle, friction, json, report };
        command.SetAction(parsed =>
        {
            var (feederFile, trialsFile) = (parsed.GetValue(feeder)!, parsed.GetValue(trials));
            if (TuneInput.Read("tune conveying", feederFile, trialsFile, TuneNeeds.None, surroundings, out var status) is not { } input)
            {
                return status;
            }

            if ((parsed.GetValue(angle) ?? input.Feeder.LineAngleDegrees) is not (>= 1 and <= 80 and var degrees))
            {
                surroundings.Error.WriteLine($"{feederFile}: no line of action from 1 to 80 degrees above the deck is known; give --angle-deg 20, or line_angle_deg as a number under [mounting]");
                return CommandLine.Bad;
            }

            var sheet = ConveyingSheet.Make(input.Feeder, input.Trials, degrees, parsed.GetValue(friction) ?? UsualFriction);
            return TuneSheetCommand.Run(sheet, parsed.GetValue(json), parsed.GetValue(report), [feederFile, trialsFile], surroundings);
        });
        return command;
    }

    private static Option<string?> Trials() => new("--trials") { Description = "The trials so far (TOML); without them the sheet shows what the feeder file and usual figures say." };

    private static Option<string?> Report() => new("--report") { Description = "Write a page for people with its plot (HTML, self-contained) to a file." };
}
