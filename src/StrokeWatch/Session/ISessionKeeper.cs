using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>Keeps what a session brings, before the next question is asked.</summary>
internal interface ISessionKeeper
{
    /// <summary>Gets the trials so far.</summary>
    IReadOnlyList<BookTrial> Trials { get; }

    /// <summary>Gets what guided checks found so far.</summary>
    IReadOnlyList<CheckFound> Found { get; }

    /// <summary>Keeps an answer and all that comes of it; false where somebody else has answered meanwhile, and nothing was kept.</summary>
    /// <exception cref="BookException">It could not be kept.</exception>
    bool Keep(string step, string answer, SessionState next, SessionTurn turn, DateTimeOffset now);
}
