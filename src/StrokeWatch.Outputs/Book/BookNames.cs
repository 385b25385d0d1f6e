namespace StrokeWatch.Outputs.Book;

/// <summary>The words of the machine book, as they stand in its file and on the command line.</summary>
public static class BookNames
{
    private static readonly Dictionary<string, BookEntryKind> Kinds = Enum.GetValues<BookEntryKind>().ToDictionary(Of);

    /// <summary>Gets the words of all kinds of entry.</summary>
    public static IReadOnlyCollection<string> EntryKinds => Kinds.Keys;

    /// <summary>Gives a kind's word.</summary>
    public static string Of(BookEntryKind kind) => kind switch
    {
        BookEntryKind.LeafSet => "leaf-set",
        BookEntryKind.AirGap => "air-gap",
        BookEntryKind.Coil => "coil",
        BookEntryKind.BoltTorque => "bolt-torque",
        BookEntryKind.Cleaning => "cleaning",
        BookEntryKind.Inspection => "inspection",
        _ => "note",
    };

    /// <summary>Gives a session's state as a word.</summary>
    public static string Of(BookSessionState state) => state switch
    {
        BookSessionState.Done => "done",
        BookSessionState.Abandoned => "abandoned",
        _ => "open",
    };

    /// <summary>Reads a kind's word; null for one that is not known.</summary>
    public static BookEntryKind? Kind(string word) => Kinds.TryGetValue(word, out var kind) ? kind : null;

    /// <summary>Reads a state's word; one of a later version reads as abandoned, so that nothing goes on with what it does not know.</summary>
    internal static BookSessionState State(string word) => word switch
    {
        "open" => BookSessionState.Open,
        "done" => BookSessionState.Done,
        _ => BookSessionState.Abandoned,
    };
}
