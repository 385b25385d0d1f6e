using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Session;

/// <summary>An entry of the machine book as somebody wrote it, on a command line or a page: one set of rules for both. Pure.</summary>
internal sealed record BookDraft
{
    private const double WidestGap = 0.1;

    /// <summary>Gets what it is about.</summary>
    public required BookEntryKind Kind { get; init; }

    /// <summary>Gets who did it; null where nobody said.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the rear stack as it was typed.</summary>
    public string? Rear { get; init; }

    /// <summary>Gets the front stack as it was typed.</summary>
    public string? Front { get; init; }

    /// <summary>Gets the air gap.</summary>
    public Length? Gap { get; init; }

    /// <summary>Gets the torque in N·m.</summary>
    public double? Torque { get; init; }

    /// <summary>Gets the words.</summary>
    public string? Text { get; init; }

    /// <summary>Gives the entry; null where it will not do, and the trouble then says why in a sentence.</summary>
    public BookEntry? Entry(FeederDescription feeder, DateTimeOffset at, BookNaming naming, out string? trouble)
    {
        var text = Text?.Trim() is { Length: > 0 } words ? words : null;
        var (rear, front) = (Stack("rear", Rear, naming, out var wrongRear), Stack("front", Front, naming, out var wrongFront));
        trouble = wrongRear ?? wrongFront ?? Misplaced(naming) ?? (Lacks(text) ? naming.Missing(Kind) : null) ?? (Rear is null ? null : Clamp(feeder, naming));
        return trouble is not null ? null : new()
        {
            Utc = at,
            Kind = Kind,
            Who = Who,
            Rear = rear,
            Front = front,
            GapMetres = Gap?.Metres,
            TorqueNewtonMetres = Torque,
            Text = text,
        };
    }

    private static string? Stack(string part, string? typed, BookNaming naming, out string? trouble)
    {
        trouble = null;
        if (typed is null)
        {
            return null;
        }

        var stack = StackText.Read(typed, out var wrong);
        trouble = stack is null ? $"{naming.Part(part)}: {wrong}" : null;
        return stack is null ? null : StackText.Write(stack);
    }

    private string? Misplaced(BookNaming naming)
    {
        (string Part, bool Given, BookEntryKind Of)[] parts =
        [
            ("rear", Rear is not null, BookEntryKind.LeafSet), ("front", Front is not null, BookEntryKind.LeafSet),
            ("gap", Gap is not null, BookEntryKind.AirGap), ("torque", Torque is not null, BookEntryKind.BoltTorque),
        ];
        if (Gap is { } gap && gap.Metres > WidestGap)
        {
            return $"{naming.Part("gap")}: {gap} is no air gap; one of at most 100 mm was expected";
        }

        return parts.FirstOrDefault(part => part.Given && part.Of != Kind) is { Part: { } misplaced, Of: var of }
            ? $"{naming.Part(misplaced)} belongs to {naming.Kind(of)}, not to {naming.Kind(Kind)}" : null;
    }

    private bool Lacks(string? text) => Kind switch
    {
        BookEntryKind.LeafSet => Rear is null,
        BookEntryKind.AirGap => Gap is null,
        BookEntryKind.BoltTorque => Torque is null,
        BookEntryKind.Note => text is null,
        _ => false,
    };

    private string? Clamp(FeederDescription feeder, BookNaming naming) =>
        RearStep.Read(Rear!, feeder, out var beyond) is null ? $"{naming.Part("rear")}: {beyond}" : null;
}
