using Microsoft.AspNetCore.Http;
using Serilog;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;

namespace StrokeWatch.Page.Tuning;

/// <summary>The tuning session on the page: one at a time, the same steps as at a terminal, each answer in the machine book before the next question. Any thread may ask.</summary>
internal sealed class TuningDesk : IDisposable
{
    /// <summary>What ends a measurement early.</summary>
    public const string EndEarly = "end";

    /// <summary>Who walks away from a phone does not keep a terminal off for ever.</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromMinutes(30);

    private static readonly TimeSpan Look = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan StopPatience = TimeSpan.FromSeconds(5);

    private readonly TuningSettings settings;
    private readonly TuningMeter meter;
    private readonly TimeProvider time;
    private readonly ILogger log;
    private readonly Lock gate = new();
    private readonly CancellationTokenSource stop = new();
    private readonly ITimer rest;
    private HeldSession? held;
    private Task working = Task.CompletedTask;
    private TaskCompletionSource? measures;
    private double seconds;
    private long used;

    /// <summary>Makes it; nothing is opened before somebody begins.</summary>
    public TuningDesk(TuningSettings settings, TuningMeter meter, TimeProvider time, ILogger log)
    {
        (this.settings, this.meter, this.time, this.log) = (settings, meter, time, log);
        seconds = settings.Seconds;
        rest = time.CreateTimer(_ => LeaveWhereIdle(), null, Look, Look);
    }

    /// <summary>Gives how it stands.</summary>
    /// <exception cref="BookException">The book cannot be read.</exception>
    public TuningView Now()
    {
        lock (gate)
        {
            // From the last sample until the reading is in the book it is still being measured: the question that stands is not asked again.
            var measuring = working.IsCompleted || measures?.Task.IsCompleted != true ? null : meter.Progress ?? new(0, null, null, []);
            return new(settings.Impossible, seconds, held is { Ended: false } ? null : OpenOne(), held?.Turn, measuring);
        }
    }

    /// <summary>Begins a session, or goes on with the one that is open in the book.</summary>
    public TuningTrouble? Start(string who, bool resume, bool anew, double? lasting)
    {
        lock (gate)
        {
            if (settings.Impossible is { } impossible)
            {
                return new(StatusCodes.Status409Conflict, impossible);
            }

            if (held is { Ended: false })
            {
                return new(StatusCodes.Status409Conflict, $"{held.Turn.Who} holds the tuning session on the page; leave it first");
            }

            Close();
            seconds = lasting ?? settings.Seconds;
            try
            {
                held = HeldSession.Open(settings, who, resume, anew, Tools(), out var trouble);
                used = time.GetTimestamp();
                if (held is not null)
                {
                    log.Information("Page: {Name:l} {Did:l} a tuning session", who, resume && !anew ? "goes on with" : "begins");
                }

                return trouble;
            }
            catch (BookException trouble)
            {
                return new(StatusCodes.Status503ServiceUnavailable, trouble.Message);
            }
        }
    }

    /// <summary>Takes an answer; comes back when it is in the book, or a measurement has begun.</summary>
    public async Task<TuningTrouble?> Answer(string who, int turn, string answer)
    {
        Task done;
        lock (gate)
        {
            if (held is not { Ended: false } session)
            {
                return new(StatusCodes.Status409Conflict, "no tuning session is held on the page; begin one");
            }

            if (session.Turn.Who != who)
            {
                return new(StatusCodes.Status409Conflict, $"{session.Turn.Who} holds the tuning session; whoever goes on with it leaves it first and resumes it");
            }

            used = time.GetTimestamp();
            if (!working.IsCompleted)
            {
                if (answer == EndEarly)
                {
                    meter.End();
                    return null;
                }

                return new(StatusCodes.Status409Conflict, $"the last answer is still worked on; `{EndEarly}` ends a measurement");
            }

            if (session.Turn.Number != turn)
            {
                return new(StatusCodes.Status409Conflict, "this question was answered already; look at the one that stands now");
            }

            measures = new(TaskCreationOptions.RunContinuationsAsynchronously);
            working = Task.Run(() => Work(session, answer));
            done = Task.WhenAny(working, measures.Task);
        }

        await done.ConfigureAwait(false);
        return null;
    }

    /// <summary>Leaves the session; it is kept in the book.</summary>
    public TuningTrouble? Leave(string who)
    {
        lock (gate)
        {
            if (!working.IsCompleted)
            {
                return new(StatusCodes.Status409Conflict, $"it is being measured; `{EndEarly}` ends that");
            }

            if (held is { Ended: false })
            {
                log.Information("Page: {Name:l} leaves the tuning session of {Who:l}", who, held.Turn.Who);
            }

            Close();
            return null;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        rest.Dispose();
        stop.Cancel();

        // Only real time passes here: a clock of the tests' own would never come to the end of the patience.
        if (working.Wait(StopPatience))
        {
            lock (gate)
            {
                Close();
            }

            stop.Dispose();
        }
    }

    private void Work(HeldSession session, string answer)
    {
        try
        {
            session.Answer(answer);
        }
        catch (BookException trouble)
        {
            session.Refuse(trouble.Message);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            session.Refuse(trouble.Message.ReplaceLineEndings(" "));
        }

        // What has come to its end lets terminals in at once; its last words stay to be read.
        if (session.Ended)
        {
            session.Dispose();
        }
    }

    private SessionTools Tools() => new()
    {
        Time = time,
        Live = true,
        AtPage = true,
        Name = file => Path.GetRelativePath(Path.GetDirectoryName(Path.GetFullPath(settings.Book!))!, Path.GetFullPath(file)),
        Seconds = seconds,
        Measure = wish =>
        {
            if (wish.Capture is not null)
            {
                return (null, "A capture is named at a terminal; measure with the live sensor.");
            }

            return meter.Measure(seconds, () => measures?.TrySetResult(), stop.Token);
        },
        Learn = trial => settings.Baseline is { } path ? SessionBaseline.Learn(path, settings.Feeder, trial, time.GetUtcNow()) : (null, [], "No file of baselines is kept; keep the baseline as it was."),
    };

    private BookSession? OpenOne()
    {
        if (settings.Impossible is not null || !File.Exists(settings.Book))
        {
            return null;
        }

        using var book = MachineBook.OpenReader(settings.Book);
        return book.Sessions.Open();
    }

    private void LeaveWhereIdle()
    {
        lock (gate)
        {
            if (held is not null && working.IsCompleted && time.GetElapsedTime(used) >= Rest)
            {
                log.Information("Page: the tuning session of {Who:l} is left, for nobody answers", held.Turn.Who);
                Close();
            }
        }
    }

    private void Close()
    {
        held?.Dispose();
        held = null;
    }
}
