using System.Text;
using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Pdf;
using StrokeWatch.Reports.Records;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Commands;

/// <summary>The command <c>report</c>: gathers what is known of a machine and writes its record.</summary>
internal sealed record ReportCommand
{
    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets where the record goes.</summary>
    public required string Target { get; init; }

    /// <summary>Gets the trials file; null for none.</summary>
    public string? Trials { get; init; }

    /// <summary>Gets the captures.</summary>
    public IReadOnlyList<string> Captures { get; init; } = [];

    /// <summary>Gets the store; null for none.</summary>
    public string? Store { get; init; }

    /// <summary>Gets the machine book; null for the usual one, where it is there.</summary>
    public string? Book { get; init; }

    /// <summary>Gets the start of the period as it was written.</summary>
    public string? From { get; init; }

    /// <summary>Gets the end of the period as it was written.</summary>
    public string? To { get; init; }

    /// <summary>Gets who makes the record.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the paper's name.</summary>
    public string? Paper { get; init; }

    /// <summary>Gets how the captures are read.</summary>
    public CaptureOptions Options { get; init; } = new();

    /// <summary>Runs; 0 where the machine is well, 1 where it is not or an alarm stands, 3 where the record holds no stroke.</summary>
    public int Run(Surroundings surroundings)
    {
        var now = surroundings.Time.GetUtcNow();
        if (ReportUse.Trouble(this) is { } trouble || !ReportUse.Period(this, now, out var period, out trouble))
        {
            surroundings.Error.WriteLine($"strokewatch report: {trouble}");
            return CommandLine.Bad;
        }

        if (TuneInput.Read("report", FeederFile, Trials, TuneNeeds.None, surroundings, out var status) is not { } input)
        {
            return status;
        }

        var errors = new ConfigurationErrors(BaselineFile.Beside(FeederFile));
        if (BaselineFile.Read(BaselineFile.Beside(FeederFile), errors) is not { } baselines)
        {
            BaselineOutcome.Say(errors, surroundings);
            return CommandLine.Bad;
        }

        if (!History(input.Feeder.Name, period, surroundings, out var history) || !ReadBook(input.Feeder.Name, surroundings, out var book))
        {
            return CommandLine.Bad;
        }

        var fromBook = Trials is null ? BookTrials.Of(book) : null;

        var options = SensorChannels.Wanted(input.Feeder, Options);
        return Write(
            new()
            {
                Feeder = input.Feeder,
                FeederFile = FeederFile,
                Now = now,
                Who = Who,
                Trials = fromBook?.Trials ?? input.Trials,
                TrialsFrom = fromBook?.Words ?? "",
                TrialUncertainty = fromBook?.Last?.UncertaintyMetres,
                TrialStrike = fromBook?.Last?.Strike,
                Book = book,
                Captures = [.. Captures.Select(file => Replay(file, input, options) with { Checks = book?.Checks ?? [] })],
                History = history,
                Baselines = baselines,
            },
            surroundings);
    }

    private int Write(RecordInput input, Surroundings surroundings)
    {
        var record = RecordBuilder.Make(input);
        var bytes = ReportUse.IsPdf(Target)
            ? RecordPdf.Write(record, Paper == PdfPaper.Letter.Name ? PdfPaper.Letter : PdfPaper.A4)
            : Encoding.UTF8.GetBytes(RecordPage.Write(record));
        if (!ResultFile.Write("--out", Target, stream => stream.Write(bytes), surroundings.Error))
        {
            return CommandLine.Bad;
        }

        var reading = FinalReading.Of(input);
        surroundings.Output.WriteLine($"{Target}: {record.Title}");
        surroundings.Output.WriteLine(reading.Stroke is { } stroke
            ? $"  stroke     {Figure.Both(stroke)}{(reading.Uncertainty is { } spread ? $" ± {Figure.BothUp(spread)}, k = 2" : ", uncertainty not known")}; {ReportWords.Of(reading.Verdict)}"
            : $"  stroke     none: {reading.Reason}");
        return Status(input, reading);
    }

    /// <summary>Gives the state of the machine; a stroke that nobody measured is not a machine that is well.</summary>
    private static int Status(RecordInput input, FinalReading reading) =>
        reading is { Stroke: null, Verdict: not Verdict.OverStroke } ? CommandLine.NoStroke
        : reading.Verdict != Verdict.InBand || reading.StrikeFound || input.Final?.Report.Transitions.Count > 0 || input.History?.Standing > 0 ? CommandLine.NotWell
        : CommandLine.Well;

    private bool History(string feeder, (DateTimeOffset From, DateTimeOffset To) period, Surroundings surroundings, out RecordHistory? history)
    {
        history = null;
        if (Store is null)
        {
            return true;
        }

        if (!File.Exists(Store))
        {
            surroundings.Error.WriteLine($"strokewatch report: --store {Store}: is not there; name the database of strokewatch watch ([store] path in its configuration)");
            return false;
        }

        try
        {
            using var reader = new StoreReader(Store);
            history = RecordHistory.Read(reader, feeder, period.From, period.To);
            return true;
        }
        catch (SqliteException trouble)
        {
            surroundings.Error.WriteLine($"strokewatch report: --store {Store}: cannot be read ({trouble.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name the database of strokewatch watch");
            return false;
        }
    }

    private bool ReadBook(string feeder, Surroundings surroundings, out BookSummary? summary)
    {
        summary = null;
        var path = Book ?? MachineBook.Beside(FeederFile);
        if (Book is null && !File.Exists(path))
        {
            return true;
        }

        try
        {
            using var book = BookAccess.OpenReader(Book, FeederFile, feeder);
            summary = BookSummary.Read(book);
            return true;
        }
        catch (BookException trouble)
        {
            surroundings.Error.WriteLine(trouble.Message);
            return false;
        }
    }

    private static ReplayResult Replay(string file, TuneInput input, CaptureOptions options)
    {
        using var source = CaptureFile.Open(file, options);
        return Replayer.Run(file, source, input.Feeder, new AlarmDelays());
    }
}
