using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>How a session begins, or is gone on with.</summary>
internal static class SessionOpening
{
    /// <summary>Begins one in a book; one that is open is given up for it.</summary>
    public static (BookSession Session, SessionState State) Begin(MachineBook book, FeederDescription feeder, string? who, DateTimeOffset now)
    {
        var state = SessionMachine.Begin(who, Installed(book, feeder));
        return (book.Sessions.Begin(feeder.Name, now, who, state.Step, SessionMemory.Write(state)), state);
    }

    /// <summary>Gives the state to go on with; null where it stands at a step that this program does not know.</summary>
    public static SessionState? Resume(BookSession open, string? who) =>
        SessionMemory.Read(open.Step, who ?? open.Who, open.Memory) is { } kept && SessionMachine.Knows(open.Step) ? SessionMachine.Resume(kept) : null;

    /// <summary>Gives the rear stack that was last put in, by the book, else by the feeder file.</summary>
    private static IReadOnlyList<LeafLayer> Installed(MachineBook book, FeederDescription feeder) =>
        (book.Entries.Last(BookEntryKind.LeafSet)?.Rear is { } entered ? StackText.Read(entered, out _) : null) ?? feeder.Springs!.Rear;
}
