using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>calibrate</c>: by six positions at rest, or by one stroke of a reference instrument.</summary>
internal static class CalibrateLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings) => new("calibrate", "Calibrates a sensor; a feeder file takes the result up with calibration = \"FILE\" in [sensor].")
    {
        Tumble(surroundings),
        Compare(surroundings),
    };

    private static Option<string> Target() => new("--out") { Description = "The calibration to write (TOML).", Required = true };

    private static Option<string?> Date() => new("--date") { Description = "Day of the calibration, as in 2026-03-14; today where not given." };

    private static Command Tumble(Surroundings surroundings)
    {
        var positions = new Option<string[]>("--positions")
        {
            Description = "The six captures at rest by the axis that pointed up (+) or down (-): x+=FILE,x-=FILE,y+=FILE,y-=FILE,z+=FILE,z-=FILE.",
            Required = true,
        };
        var tilt = Numbers.Within("--tilt-deg", "How far each position may have leaned from plumb, in degrees; 1 where not given.", 0, 20);
        var linearity = Numbers.Within("--linearity-percent", "How far the sensitivity in motion may be from that at rest, half-width; 0.5 where not given (common practice, no source).", 0, 50);
        var gravity = Numbers.Within("--gravity-m-s2", "Local gravity, where it is known.", 9.7, 9.9);
        var latitude = Numbers.Within("--latitude", "Latitude in degrees, from which gravity follows.", -90, 90);
        var height = Numbers.Within("--height-m", "Height above the sea in metres, beside --latitude.", -500, 9000);
        var target = Target();
        var date = Date();
        var options = new CaptureArguments();
        var command = new Command("tumble", "Finds gain, cross-axis gain and bias from six positions at rest.") { positions, target, tilt, linearity, gravity, latitude, height, date };
        options.AddTo(command);
        command.SetAction(parsed => options.Read(parsed, out var error) is { } capture
            ? new TumbleCommand
            {
                Positions = parsed.GetValue(positions)!,
                Target = parsed.GetValue(target)!,
                TiltDegrees = parsed.GetValue(tilt) ?? TumbleCommand.UsualTiltDegrees,
                Linearity = (parsed.GetValue(linearity) ?? TumbleCommand.UsualLinearityPercent) / 100,
                Gravity = parsed.GetValue(gravity),
                Latitude = parsed.GetValue(latitude),
                Height = parsed.GetValue(height),
                Date = parsed.GetValue(date),
                Capture = capture,
            }.Run(surroundings)
            : Refuse(surroundings, command, error));
        return command;
    }

    private static Command Compare(Surroundings surroundings)
    {
        var file = new Option<string>("--capture") { Description = "A capture of the feeder running steadily, taken while the reference read the stroke.", Required = true };
        var feeder = new Option<string>("--feeder") { Description = "The feeder file (TOML); a calibration that it names already is refined.", Required = true };
        var reference = Numbers.Length("--reference-stroke", "The stroke by the reference, peak to peak along the line of action, with its unit.");
        var uncertainty = Numbers.Length("--reference-uncertainty", "The reference's expanded uncertainty (k = 2), with its unit.");
        reference.Required = uncertainty.Required = true;
        var place = new Option<string?>("--place") { Description = "Where the feeder file lists several sensors: the place of the one that is calibrated, such as front; the reference reads the stroke there." };
        var target = Target();
        var date = Date();
        var options = new CaptureArguments();
        var command = new Command("compare", "Finds the gain from one stroke that a reference instrument read at the same time.") { file, feeder, reference, uncertainty, place, target, date };
        options.AddTo(command);
        command.SetAction(parsed => options.Read(parsed, out var error) is { } capture
            ? new CompareCommand
            {
                File = parsed.GetValue(file)!,
                FeederFile = parsed.GetValue(feeder)!,
                Reference = parsed.GetValue(reference)!.Value,
                ReferenceUncertainty = parsed.GetValue(uncertainty)!.Value,
                Place = parsed.GetValue(place),
                Target = parsed.GetValue(target)!,
                Date = parsed.GetValue(date),
                Capture = capture,
            }.Run(surroundings)
            : Refuse(surroundings, command, error));
        return command;
    }

    private static int Refuse(Surroundings surroundings, Command command, string? error)
    {
        surroundings.Error.WriteLine($"strokewatch calibrate {command.Name}: {error}");
        return CommandLine.Bad;
    }
}
