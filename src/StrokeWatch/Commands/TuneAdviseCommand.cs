using StrokeWatch.Machine.Tuning;
using StrokeWatch.Reports;

namespace StrokeWatch.Commands;

/// <summary>The command <c>tune advise</c>.</summary>
internal static class TuneAdviseCommand
{
    /// <summary>Reads feeder and trials, fits and advises; 0 where nothing is to be done.</summary>
    public static int Run(string feederFile, string trialsFile, string? json, Surroundings surroundings)
    {
        if (TuneInput.Read("tune advise", feederFile, trialsFile, TuneNeeds.Springs | TuneNeeds.Masses, surroundings, out var status) is not { } input)
        {
            return status;
        }

        var posterior = TuningFit.Run(input.Feeder, input.Trials);
        var advice = TuningAdvisor.Advise(posterior);
        status = advice.Action == TuningAction.None ? CommandLine.Well : CommandLine.NotWell;
        if (json == "-")
        {
            AdviceJson.Write(surroundings.RawOutput, advice, posterior);
            return status;
        }

        if (json is not null && !ResultFile.Write("--json", json, stream => AdviceJson.Write(stream, advice, posterior), surroundings.Error))
        {
            return CommandLine.Bad;
        }

        AdviceText.Write(surroundings.Output, advice, posterior);
        return status;
    }
}
