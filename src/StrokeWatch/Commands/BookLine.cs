using System.CommandLine;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Commands;

/// <summary>The command <c>book</c>: a feeder's machine book, shown and written to.</summary>
internal static class BookLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings) => new("book", "The machine book: what the feeder has run, what was done to it, what is to be done.")
    {
        Show(surroundings),
        Note(surroundings),
        Set(surroundings),
        Remind(surroundings),
    };

    /// <summary>Makes the option for the book's file.</summary>
    internal static Option<string?> Book() => new("--book") { Description = "The machine book; NAME.book.sqlite beside the feeder file where not given." };

    private static Option<string?> Who() => new("--who") { Description = "Who did it." };

    private static Argument<string> Kind() => new("KIND") { Description = $"What it is about: {string.Join(", ", BookNames.EntryKinds)}." };

    private static Command Show(Surroundings surroundings)
    {
        var (feeder, book, json) = (TuneLine.Feeder(), Book(), TuneLine.Json());
        var command = new Command("show", "Prints the book.") { feeder, book, json };
        command.SetAction(parsed => BookShowCommand.Run(parsed.GetValue(feeder)!, parsed.GetValue(book), parsed.GetValue(json), surroundings));
        return command;
    }

    private static Command Note(Surroundings surroundings)
    {
        var words = new Argument<string>("WORDS") { Description = "The note, in quotes." };
        var (feeder, book, who) = (TuneLine.Feeder(), Book(), Who());
        var command = new Command("note", "Takes down a note.") { words, feeder, book, who };
        command.SetAction(parsed => new BookEntryCommand
        {
            FeederFile = parsed.GetValue(feeder)!,
            Book = parsed.GetValue(book),
            Kind = BookNames.Of(BookEntryKind.Note),
            Text = parsed.GetValue(words),
            Who = parsed.GetValue(who),
        }.Run(surroundings));
        return command;
    }

    private static Command Set(Surroundings surroundings)
    {
        var kind = Kind();
        var (feeder, book, who) = (TuneLine.Feeder(), Book(), Who());
        var rear = new Option<string?>("--rear") { Description = "The rear stack of a leaf set, as in \"4x4.0 1x3.0\": four leaves of 4 mm and one of 3 mm." };
        var front = new Option<string?>("--front") { Description = "The front stack of a leaf set." };
        var gap = Numbers.Length("--gap", "The air gap at rest, as in \"2.2 mm\".");
        var torque = Numbers.Positive("--torque-nm", "The bolts' torque in N·m.");
        var text = new Option<string?>("--text") { Description = "More about it, in words." };
        var command = new Command("set", "Takes down what was done: leaf-set, air-gap, coil, bolt-torque, cleaning, inspection; its reminder begins anew.") { kind, feeder, book, rear, front, gap, torque, text, who };
        command.SetAction(parsed => new BookEntryCommand
        {
            FeederFile = parsed.GetValue(feeder)!,
            Book = parsed.GetValue(book),
            Kind = parsed.GetValue(kind)!,
            Rear = parsed.GetValue(rear),
            Front = parsed.GetValue(front),
            Gap = parsed.GetValue(gap),
            Torque = parsed.GetValue(torque),
            Text = parsed.GetValue(text),
            Who = parsed.GetValue(who),
        }.Run(surroundings));
        return command;
    }

    private static Command Remind(Surroundings surroundings)
    {
        var kind = Kind();
        var (feeder, book) = (TuneLine.Feeder(), Book());
        var hours = Numbers.Positive("--every-hours", "Remind after so many hours of running.");
        var cycles = Numbers.Positive("--every-cycles", "Remind after so many cycles; with hours, whichever comes first.");
        var off = new Option<bool>("--off") { Description = "Remind no more." };
        var command = new Command("remind", "Sets a reminder by hours of running or by cycles, counted from now; an entry of its kind begins it anew.") { kind, feeder, book, hours, cycles, off };
        command.SetAction(parsed => new BookRemindCommand
        {
            FeederFile = parsed.GetValue(feeder)!,
            Book = parsed.GetValue(book),
            Kind = parsed.GetValue(kind)!,
            Hours = parsed.GetValue(hours),
            Cycles = parsed.GetValue(cycles),
            Off = parsed.GetValue(off),
        }.Run(surroundings));
        return command;
    }
}
