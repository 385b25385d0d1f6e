using System.Globalization;
using System.Text;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Page.Access;

/// <summary>The file of those who may sign in (TOML): names, roles, what is kept of passwords and tokens. Nobody but its owner may read it.</summary>
internal sealed record UsersFile(IReadOnlyList<PageUser> Users, IReadOnlyList<PageToken> Tokens)
{
    /// <summary>How many users and how many tokens a file may hold.</summary>
    public const int Most = 200;

    private const int MostBytes = 200_000;
    private const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const string Instant = "yyyy-MM-dd'T'HH:mm:ss'Z'";

    /// <summary>Gives a file that names nobody.</summary>
    public static UsersFile Empty { get; } = new([], []);

    /// <summary>Gives the user of a name; null where there is none.</summary>
    public PageUser? Find(string name) => Users.FirstOrDefault(user => PageUser.Same(user.Name, name));

    /// <summary>Says in one line why the file will not do, without reading it; null where it will.</summary>
    public static string? Closed(string path)
    {
        try
        {
            if (!File.Exists(path))
            {
                return $"{path} is not there: make it with strokewatch page user add NAME --role ROLE --users {path}";
            }

            var mode = OperatingSystem.IsWindows() ? Owner : File.GetUnixFileMode(path);
            return (mode & ~(Owner | UnixFileMode.UserExecute)) != 0
                ? $"{path} is open to others than its owner (mode {Convert.ToString((int)mode, 8)}): chmod 600 {path}"
                : new FileInfo(path).Length > MostBytes ? $"{path} is too long to be a file of users" : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"{path} cannot be read: check owner and mode of the file and its folder";
        }
    }

    /// <summary>Reads it; null where anything is wrong, which is then said, a line each.</summary>
    public static UsersFile? Read(string path, out IReadOnlyList<string> troubles)
    {
        if (Closed(path) is { } closed)
        {
            troubles = [closed];
            return null;
        }

        var errors = new ConfigurationErrors(path);
        var users = new List<PageUser>();
        var tokens = new List<PageToken>();
        if (TomlFile.Read(path, errors) is { } root)
        {
            var reader = new TableReader(root, errors);
            users.AddRange((reader.Rows("user", "tables [[user]]", User) ?? []).OfType<PageUser>());
            tokens.AddRange((reader.Rows("token", "tables [[token]]", Token) ?? []).OfType<PageToken>());
            reader.Finish();
            Agree(reader, users, tokens);
        }

        troubles = [.. errors.Select(error => error.ToString())];
        return troubles.Count > 0 ? null : new(users, tokens);
    }

    /// <summary>Writes it as a whole, so that no reader ever finds half of it; only its owner may read it.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Write(string path)
    {
        var text = new StringBuilder("# Who may sign in to the page. Made by `strokewatch page`; passwords and tokens cannot be read back from it.\n");
        foreach (var user in Users)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n[[user]]\nname = \"{user.Name}\"\nrole = \"{PageRoles.Name(user.Role)}\"\npassword = \"{user.Password}\"\n");
        }

        foreach (var token in Tokens)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n[[token]]\nuser = \"{token.User}\"\nsha256 = \"{token.Hash}\"\nmade_utc = \"{token.Made.UtcDateTime.ToString(Instant, CultureInfo.InvariantCulture)}\"\n");
        }

        var whole = Path.GetFullPath(path);
        var half = whole + ".new";
        File.Delete(half);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = Owner;
        }

        using (var stream = new FileStream(half, options))
        {
            stream.Write(Encoding.UTF8.GetBytes(text.ToString()));
            stream.Flush(flushToDisk: true);
        }

        File.Move(half, whole, overwrite: true);
    }

    private static void Agree(TableReader reader, List<PageUser> users, List<PageToken> tokens)
    {
        if (users.Count > Most || tokens.Count > Most)
        {
            reader.Refuse("user", $"there are more than {Most} users or tokens; take out those that nobody needs");
        }

        if (users.Where((user, place) => users.FindIndex(other => PageUser.Same(other.Name, user.Name)) < place).FirstOrDefault() is { } twice)
        {
            reader.Refuse("user", $"`{twice.Name}` is there twice; take one out");
        }

        if (tokens.FirstOrDefault(token => !users.Exists(user => PageUser.Same(user.Name, token.User))) is { } orphan)
        {
            reader.Refuse("token", $"a token is for `{orphan.User}`, who is no user; take it out");
        }
    }

    private static PageUser? User(TableReader table)
    {
        var name = table.Text("name", PageUser.Expected);
        var role = table.Choice("role", [.. PageRoles.All]);
        var password = table.Text("password", "what `strokewatch page user add` writes");
        table.Require("name", PageUser.Expected);
        table.Require("role", string.Join(" or ", PageRoles.All));
        table.Require("password", "what `strokewatch page user add` writes");
        if (name is not null && !PageUser.Named(name))
        {
            table.Refuse("name", $"`name` will not do; {PageUser.Expected} was expected");
        }

        var hash = password is null ? null : PasswordHash.Read(password);
        if (password is not null && hash is null)
        {
            table.Refuse("password", "`password` is not what `strokewatch page user add` writes; set it anew with that command");
        }

        return name is null || role is null || hash is null ? null : new(name, PageRoles.Read(role)!.Value, hash);
    }

    private static PageToken? Token(TableReader table)
    {
        const string Written = "what `strokewatch page token add` writes";
        var user = table.Text("user", "the name of a user");
        var hash = table.Text("sha256", Written);
        var made = table.Text("made_utc", Written);
        table.Require("user", "the name of a user");
        table.Require("sha256", Written);
        if (hash is not null && !PageToken.IsHash(hash))
        {
            table.Refuse("sha256", $"`sha256` is not {Written}");
            return null;
        }

        _ = DateTimeOffset.TryParseExact(made, Instant, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at);
        return user is null || hash is null ? null : new(user, hash, at);
    }
}
