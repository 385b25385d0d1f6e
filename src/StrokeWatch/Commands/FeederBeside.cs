namespace StrokeWatch.Commands;

/// <summary>The feeder file that lies beside a capture: NAME.feeder.toml beside NAME.wav.</summary>
internal static class FeederBeside
{
    /// <summary>Gives the feeder file of captures; null where one has none beside it, or not the same as the others.</summary>
    /// <param name="captures">The captures, at least one.</param>
    /// <param name="trouble">What is lacking and what to do; null where nothing is.</param>
    public static string? Find(IReadOnlyList<string> captures, out string? trouble)
    {
        trouble = null;
        string? found = null;
        foreach (var capture in captures)
        {
            var beside = Path.ChangeExtension(capture, null) + ".feeder.toml";
            if (!File.Exists(beside))
            {
                trouble = $"--feeder is missing, and there is no {beside} beside the capture; name the feeder file after --feeder";
                return null;
            }

            if (found is not null && !Same(found, beside))
            {
                trouble = $"{found} and {beside} are not the same feeder; name the feeder file after --feeder, or replay the captures one by one";
                return null;
            }

            found ??= beside;
        }

        return found;
    }

    private static bool Same(string one, string other)
    {
        try
        {
            return File.ReadAllBytes(one).AsSpan().SequenceEqual(File.ReadAllBytes(other));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
