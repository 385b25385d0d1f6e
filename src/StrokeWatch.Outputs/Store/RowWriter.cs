using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Measurement.Supply;

namespace StrokeWatch.Outputs.Store;

/// <summary>Writes rows within a transaction; the statements are prepared once a connection.</summary>
internal sealed class RowWriter : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly string feeder;
    private readonly SqliteCommand window;
    private readonly SqliteCommand alarm;
    private readonly SqliteCommand note;
    private readonly SqliteCommand stretch;
    private readonly SqliteCommand feature;
    private readonly SqliteCommand finding;
    private readonly SqliteCommand journal;
    private readonly SqliteCommand capture;
    private readonly SqliteCommand gone;
    private readonly SqliteCommand supply;

    /// <summary>Prepares the statements.</summary>
    public RowWriter(SqliteConnection connection, string feeder)
    {
        this.connection = connection;
        this.feeder = feeder;
        window = Insert("window", "feeder", "utc_ms", "start_s", "length_s", "pp_mm", "fundamental_pp_mm", "uncertainty_mm", "noise_mm",
            "line_angle_deg", "ellipse_ratio", "frequency_hz", "clock_error_ppm", "quality", "motion", "verdict", "strike", "strike_score",
            "clipped_samples", "reason");
        alarm = Insert("alarm", "feeder", "utc_ms", "at_s", "kind", "raised", "pp_mm", "words");
        note = Insert("event", "feeder", "utc_ms", "kind", "text");
        stretch = Insert("stretch", "feeder", "utc_ms", "length_s", "ended", "alarm", "steady_windows", "reason");
        supply = connection.CreateCommand();
        supply.CommandText = "INSERT INTO window_supply VALUES (last_insert_rowid(), $rms, $mains, $fundamental, $phase, $share, $firing)";
        foreach (var name in (string[])["$rms", "$mains", "$fundamental", "$phase", "$share", "$firing"])
        {
            supply.Parameters.Add(new SqliteParameter { ParameterName = name });
        }

        supply.Prepare();
        feature = connection.CreateCommand();
        feature.CommandText = "INSERT INTO stretch_feature VALUES ((SELECT max(id) FROM stretch), $name, $value)";
        feature.Parameters.Add(new SqliteParameter { ParameterName = "$name" });
        feature.Parameters.Add(new SqliteParameter { ParameterName = "$value" });
        feature.Prepare();
        journal = Insert("alarm_journal", "feeder", "utc_ms", "alarm", "act", "state_from", "state_to", "beneath", "by", "words", "until_utc_ms");
        capture = Insert("capture", "feeder", "utc_ms", "alarm", "file", "from_utc_ms", "length_s", "lost_samples", "whole");
        gone = connection.CreateCommand();
        gone.CommandText = "UPDATE capture SET removed_utc_ms = $utc WHERE feeder = $feeder AND file = $file AND removed_utc_ms IS NULL";
        foreach (var name in (string[])["$feeder", "$utc", "$file"])
        {
            gone.Parameters.Add(new SqliteParameter { ParameterName = name });
        }

        gone.Prepare();
        finding = Insert("finding", "feeder", "utc_ms", "finding", "raised", "confidence", "words", "because", "check_first", "confirm", "tell_apart");
    }

    /// <summary>Commits rows as one: all of them, or none where it throws.</summary>
    public void Commit(IReadOnlyList<StoreRow> rows)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        foreach (var row in rows)
        {
            switch (row)
            {
                case WindowRow w:
                    var r = w.Reading;
                    Run(window, transaction, w.Utc, Finite(r.StartSeconds) ?? 0, Finite(r.LengthSeconds) ?? 0, Finite(r.StrokeMetres * 1e3),
                        Finite(r.FundamentalMetres * 1e3), Finite(r.UncertaintyMetres * 1e3), Finite(r.NoiseMetres * 1e3), Finite(r.LineAngleDegrees),
                        Finite(r.EllipseRatio), Finite(r.FrequencyHz), Finite(r.ClockError * 1e6), Names.Of(r.Quality), Names.Of(r.Motion),
                        Names.Of(w.Verdict), r.Strike ? 1 : 0, Finite(r.StrikeScore), r.ClippedSamples, r.Reason);
                    Run(transaction, r.Supply);
                    break;
                case AlarmRow a:
                    var t = a.Transition;
                    Run(alarm, transaction, a.Utc, Finite(t.AtSeconds) ?? 0, Names.Of(t.Kind), t.Raised ? 1 : 0, Finite(t.StrokeMetres * 1e3), t.Words);
                    break;
                case JournalRow j:
                    Run(journal, transaction, j.Utc, j.Step.Id.ToString(), Names.Of(j.Step.Act), Names.Of(j.Step.From), Names.Of(j.Step.To), Names.Of(j.Step.Beneath),
                        j.Step.By, j.Step.Words, j.Step.Until?.ToUnixTimeMilliseconds());
                    break;
                case CaptureRow c:
                    var kept = c.Waveform;
                    Run(capture, transaction, c.Utc, kept.Id.ToString(), kept.File, kept.From.ToUnixTimeMilliseconds(), Finite(kept.LengthSeconds) ?? 0, kept.LostSamples, kept.Whole ? 1 : 0);
                    break;
                case CaptureGoneRow g:
                    Run(gone, transaction, g.Utc, g.File);
                    break;
                case EventRow e:
                    Run(note, transaction, e.Utc, StoreNames.Of(e.Kind), e.Text);
                    break;
                case StretchRow s:
                    Run(transaction, s.Stretch);
                    break;
                case FindingRow f:
                    var (found, raised, _) = f.Transition;
                    Run(finding, transaction, f.Utc, found.Id, raised ? 1 : 0, Finite(found.Confidence), found.Words, string.Join('\n', found.Because),
                        string.Join('\n', found.CheckFirst), found.Confirm, found.TellApart);
                    break;
            }
        }

        transaction.Commit();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        window.Dispose();
        alarm.Dispose();
        note.Dispose();
        stretch.Dispose();
        feature.Dispose();
        finding.Dispose();
        journal.Dispose();
        capture.Dispose();
        gone.Dispose();
        supply.Dispose();
    }

    private static double? Finite(double? value) => value is { } number && double.IsFinite(number) ? number : null;

    private SqliteCommand Insert(string table, params string[] columns)
    {
        var command = connection.CreateCommand();
        command.CommandText = $"INSERT INTO {table} ({string.Join(", ", columns)}) VALUES ({string.Join(", ", columns.Select(c => "$" + c))})";
        foreach (var column in columns)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = "$" + column });
        }

        command.Prepare();
        return command;
    }

    private void Run(SqliteTransaction transaction, SupplyReading? reading)
    {
        if (reading is not { } read)
        {
            return;
        }

        supply.Transaction = transaction;
        double?[] values = [read.RmsVolts, read.MainsVolts, read.FundamentalVolts, read.PhaseDegrees, read.ConductionShare, read.FiringDegrees];
        for (var i = 0; i < values.Length; i++)
        {
            supply.Parameters[i].Value = Finite(values[i]) ?? (object)DBNull.Value;
        }

        supply.ExecuteNonQuery();
    }

    private void Run(SqliteTransaction transaction, Stretch summed)
    {
        Run(stretch, transaction, summed.From, Finite(summed.LengthSeconds) ?? 0, Names.Of(summed.Ended), summed.Alarm ? 1 : 0, summed.Features.SteadyWindows, summed.Features.Reason);
        feature.Transaction = transaction;
        foreach (var (name, value) in KeptFeatures.Of(summed.Features))
        {
            feature.Parameters[0].Value = name;
            feature.Parameters[1].Value = value;
            feature.ExecuteNonQuery();
        }
    }

    private void Run(SqliteCommand command, SqliteTransaction transaction, DateTimeOffset utc, params object?[] values)
    {
        command.Transaction = transaction;
        command.Parameters[0].Value = feeder;
        command.Parameters[1].Value = utc.ToUnixTimeMilliseconds();
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i + 2].Value = values[i] ?? DBNull.Value;
        }

        command.ExecuteNonQuery();
    }
}
