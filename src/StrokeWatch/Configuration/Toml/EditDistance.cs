namespace StrokeWatch.Configuration.Toml;

/// <summary>How far two words are apart, for "did you mean".</summary>
internal static class EditDistance
{
    /// <summary>Counts the letters to add, drop, change or swap with their neighbour to make one word of the other (optimal string alignment).</summary>
    public static int Between(string a, string b)
    {
        var cost = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            cost[i, 0] = i;
        }

        for (var j = 0; j <= b.Length; j++)
        {
            cost[0, j] = j;
        }

        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                var change = cost[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                cost[i, j] = Math.Min(change, Math.Min(cost[i - 1, j], cost[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    cost[i, j] = Math.Min(cost[i, j], cost[i - 2, j - 2] + 1);
                }
            }
        }

        return cost[a.Length, b.Length];
    }

    /// <summary>Gives the nearest of some words, the first of equals; null where there are none.</summary>
    public static string? Nearest(string word, IEnumerable<string> known) =>
        known.MinBy(k => Between(word.ToLowerInvariant(), k.ToLowerInvariant()));
}
