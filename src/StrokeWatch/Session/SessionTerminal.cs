using System.Globalization;

namespace StrokeWatch.Session;

/// <summary>Puts a session's questions on a terminal, line by line; thin: what is asked and where it leads is the session's own.</summary>
internal sealed class SessionTerminal(TextWriter output, IAnswers answers, bool terminal)
{
    private const int Width = 96;
    private const int Label = 11;
    private const string Indent = "   ";

    /// <summary>Gets whether to end without showing the last step, whose words come from elsewhere.</summary>
    public bool Ends { get; init; }

    /// <summary>Runs a session until it is over or left; true where it came to its end.</summary>
    public bool Run(SessionRunner runner)
    {
        while (true)
        {
            var step = runner.Current;
            Show(step);
            if (step.Over)
            {
                return true;
            }

            if (answers.Next(step) is not { } answer)
            {
                return false;
            }

            var turn = runner.Answer(answer);
            if (turn.Trial is not null)
            {
                // What was pressed while it was measured is no answer to what comes after it.
                _ = answers.Pressed();
            }

            foreach (var said in turn.Said)
            {
                Write(said);
            }

            if (turn.Refused is { } refused)
            {
                output.WriteLine(Indent + refused);
            }

            if (turn.Leaves || (turn.Done && Ends))
            {
                return turn.Done;
            }
        }
    }

    /// <summary>Asks a single question outside of a session until it is answered; gives the choice's id, or null where none will come.</summary>
    public string? Ask(SessionStep step)
    {
        while (true)
        {
            Show(step);
            if (answers.Next(step)?.Trim() is not { } answer || answer == "q")
            {
                return null;
            }

            var chosen = answer.Length == 0 ? step.Choices.FirstOrDefault(choice => choice.Enter)
                : int.TryParse(answer, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= 1 && number <= step.Choices.Count ? step.Choices[number - 1] : null;
            if (chosen is not null)
            {
                return chosen.Id;
            }

            output.WriteLine(Indent + (answer == "?" ? step.Explain : SessionWords.NoAnswer(step, answer)));
        }
    }

    private void Show(SessionStep step)
    {
        output.WriteLine();
        output.WriteLine(step.Urgent ? $"{(terminal ? "\a" : "")}!!! {step.Title} !!!" : $"== {step.Title}");
        foreach (var line in step.Text)
        {
            Write(line);
        }

        for (var i = 0; i < step.Choices.Count; i++)
        {
            var choice = step.Choices[i];
            output.WriteLine($"  {SessionStep.Keys[i]}  {choice.Words}{(choice.Enter ? "  (Enter)" : "")}");
        }

        if (step.Over)
        {
            return;
        }

        output.WriteLine($"  {(step.CanGoBack ? "b back  " : "")}{(step.CanCheck ? "c checks  " : "")}? why  q leave");
        output.Write(step.Asks is { } asks ? $"{asks}{(step.EnterMeans is { } enter ? $" (Enter: {enter})" : "")}: " : "> ");
    }

    /// <summary>Writes a line; on a terminal it is broken between words.</summary>
    private void Write(string text)
    {
        var rest = text;
        var lead = text.Length - text.TrimStart().Length;
        var indent = Indent;
        var hang = text.Length > Label && text[Label - 1] == ' ' && text[Label - 2] == ' ' && text[Label] != ' ' ? Label : lead > 0 ? lead + 2 : 0;
        while (terminal && rest.Length > Width && rest.LastIndexOf(' ', Width) is var at && at > lead)
        {
            output.WriteLine(indent + rest[..at]);
            (rest, indent, lead) = (rest[(at + 1)..], Indent + new string(' ', hang), 0);
        }

        output.WriteLine(indent + rest);
    }
}
