using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>captures</c>: shows the captures of a running daemon, and keeps waveforms of alarms from being removed to make room.</summary>
internal static class CapturesLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings) => new("captures", "Shows the captures of a running daemon, and keeps some from being removed to make room.")
    {
        Show(surroundings),
        Keep(surroundings),
        Release(surroundings),
    };

    private static Command Show(Surroundings surroundings)
    {
        var (url, ca) = (AlarmsLine.Url(), AlarmsLine.Ca());
        var json = new Option<bool>("--json") { Description = "As JSON." };
        var command = new Command("show", "Shows the captures, the newest first.") { url, ca, json };
        command.SetAction(parsed => new CapturesCommand(surroundings, new("captures", surroundings) { Url = parsed.GetValue(url)!, CaFile = parsed.GetValue(ca) }).Show(parsed.GetValue(json)));
        return command;
    }

    private static Command Keep(Surroundings surroundings)
    {
        var name = Name();
        var (url, token, ca) = (AlarmsLine.Url(), AlarmsLine.Token(), AlarmsLine.Ca());
        var reason = new Option<string?>("--reason") { Description = "Why." };
        var command = new Command("keep", "Keeps an alarm's waveform from being removed to make room; kept ones may take half of the quota.") { name, url, token, ca, reason };
        command.SetAction(parsed => new CapturesCommand(surroundings, new("captures", surroundings) { Url = parsed.GetValue(url)!, TokenFile = parsed.GetValue(token), CaFile = parsed.GetValue(ca) })
            .Do("keep", parsed.GetValue(name)!, parsed.GetValue(reason)));
        return command;
    }

    private static Command Release(Surroundings surroundings)
    {
        var name = Name();
        var (url, token, ca) = (AlarmsLine.Url(), AlarmsLine.Token(), AlarmsLine.Ca());
        var command = new Command("release", "Lets a kept waveform go when room is needed.") { name, url, token, ca };
        command.SetAction(parsed => new CapturesCommand(surroundings, new("captures", surroundings) { Url = parsed.GetValue(url)!, TokenFile = parsed.GetValue(token), CaFile = parsed.GetValue(ca) })
            .Do("release", parsed.GetValue(name)!, null));
        return command;
    }

    private static Argument<string> Name() => new("NAME") { Description = "The capture's file name, as captures show prints it." };
}
