using System.CommandLine;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Access;

namespace StrokeWatch.Commands;

/// <summary>The command <c>alarms</c>: shows the alarms of a running daemon, and acts on them as the user whose token is given.</summary>
internal static class AlarmsLine
{
    private const int MostMinutes = 7 * 24 * 60;

    private static readonly Dictionary<string, string> Acts = new()
    {
        ["acknowledge"] = "Says that somebody has seen an alarm.",
        ["reset"] = "Lets an alarm go that latched: it is over, and was acknowledged.",
        ["shelve"] = "Puts an alarm aside for a while.",
        ["unshelve"] = "Takes an alarm up again that was put aside.",
        ["out-of-service"] = "Takes an alarm out of service until it is put back.",
        ["return-to-service"] = "Puts an alarm back into service.",
    };

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var command = new Command("alarms", "Shows the alarms of a running daemon, and acts on them.") { Show(surroundings) };
        foreach (var act in AlarmActs.All.Keys)
        {
            command.Add(Act(act, Acts[act], surroundings));
        }

        return command;
    }

    private static Command Show(Surroundings surroundings)
    {
        var (url, ca) = (Url(), Ca());
        var json = new Option<bool>("--json") { Description = "As JSON." };
        var command = new Command("show", "Shows the alarms that anything is to be said of; exits with 1 where any stands.") { url, ca, json };
        command.SetAction(parsed => new AlarmsCommand(surroundings) { Url = parsed.GetValue(url)!, CaFile = parsed.GetValue(ca) }.Show(parsed.GetValue(json)));
        return command;
    }

    private static Command Act(string act, string description, Surroundings surroundings)
    {
        var alarm = new Argument<string>("ALARM") { Description = "The alarm's id, as in over-stroke or sensor-lost/front." };
        var (url, ca) = (Url(), Ca());
        var token = Token();
        var reason = new Option<string?>("--reason") { Description = "Why.", Required = act is "shelve" or "out-of-service" };
        var minutes = new Option<int?>("--minutes") { Description = "For how long, in minutes.", Required = act == "shelve" };
        minutes.Validators.Add(given =>
        {
            if (given.Tokens is [{ Value: var text }] && (!int.TryParse(text, out var value) || value is < 1 or > MostMinutes))
            {
                given.AddError($"--minutes is '{text}'; a whole number from 1 to {MostMinutes} was expected");
            }
        });
        var command = new Command(act, description) { alarm, url, token, ca, reason };
        if (act == "shelve")
        {
            command.Add(minutes);
        }

        command.SetAction(parsed => new AlarmsCommand(surroundings) { Url = parsed.GetValue(url)!, TokenFile = parsed.GetValue(token), CaFile = parsed.GetValue(ca) }
            .Do(parsed.GetValue(alarm)!, act, act == "shelve" ? parsed.GetValue(minutes) : null, parsed.GetValue(reason)));
        return command;
    }

    /// <summary>Makes the option for the page's address.</summary>
    internal static Option<string> Url() => new("--url") { Description = "Where the daemon's page is.", DefaultValueFactory = _ => $"http://{PageSettings.Usual}" };

    /// <summary>Makes the option for the file of a token.</summary>
    internal static Option<string> Token() => new("--token-file") { Description = "The file that holds a token of strokewatch page token add.", Required = true };

    /// <summary>Makes the option for the certificate of the page.</summary>
    internal static Option<string?> Ca() => new("--ca-file") { Description = "The certificate in PEM by which the page's own is trusted." };
}
