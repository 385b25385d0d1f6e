namespace StrokeWatch.Page.Access;

/// <summary>Somebody who may sign in.</summary>
/// <param name="Name">The name, as the journal of alarms writes it.</param>
/// <param name="Role">The role.</param>
/// <param name="Password">What is kept of the password.</param>
internal sealed record PageUser(string Name, PageRole Role, PasswordHash Password)
{
    private const int Fewest = 2, Most = 40;

    /// <summary>What a name must be.</summary>
    public const string Expected = "a name of 2 to 40 letters, digits, spaces, dots, hyphens or underscores that begins with a letter or digit";

    /// <summary>Says whether a name will do: it must be told apart in a journal, and not change how a file is read.</summary>
    public static bool Named(string name) =>
        name.Length is >= Fewest and <= Most && char.IsLetterOrDigit(name[0]) && name == name.Trim()
        && name.All(letter => char.IsLetterOrDigit(letter) || letter is ' ' or '.' or '-' or '_');

    /// <summary>Says whether two names are the same person's: a phone writes the first letter large.</summary>
    public static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
