using StrokeWatch.Page.Access;

namespace StrokeWatch.Commands;

/// <summary>The commands <c>page user</c> and <c>page token</c>: who may sign in, and which programs act for whom.</summary>
internal sealed class PageUserCommand(string file, Surroundings surroundings)
{
    /// <summary>Adds a user, or sets password and role of one anew.</summary>
    public int Add(string name, PageRole role, bool fromInput) => With(users =>
    {
        if (!PageUser.Named(name))
        {
            return Say($"strokewatch page user add: '{name}' will not do; {PageUser.Expected} was expected");
        }

        if (Password(fromInput) is not { } password)
        {
            return CommandLine.Bad;
        }

        var before = users.Find(name);
        var user = new PageUser(before?.Name ?? name, role, PasswordHash.Make(password));
        (users with { Users = before is null ? [.. users.Users, user] : [.. users.Users.Select(other => other == before ? user : other)] }).Write(file);
        surroundings.Output.WriteLine($"{file}: {user.Name} may sign in as {PageRoles.Name(role)}{(before is null ? "" : "; the password is set anew")}.");
        return CommandLine.Well;
    });

    /// <summary>Lists the users and how many tokens each has.</summary>
    public int List() => With(users =>
    {
        foreach (var user in users.Users)
        {
            var tokens = users.Tokens.Count(token => PageUser.Same(token.User, user.Name));
            surroundings.Output.WriteLine($"{user.Name}  {PageRoles.Name(user.Role)}{(tokens > 0 ? FormattableString.Invariant($"  tokens: {tokens}") : "")}");
        }

        return CommandLine.Well;
    });

    /// <summary>Removes a user and all that acts for him.</summary>
    public int Remove(string name) => With(users =>
    {
        if (users.Find(name) is not { } user)
        {
            return Say($"{file}: there is no user '{name}'; strokewatch page user list --users {file} names them");
        }

        new UsersFile([.. users.Users.Where(other => other != user)], [.. users.Tokens.Where(token => !PageUser.Same(token.User, user.Name))]).Write(file);
        surroundings.Output.WriteLine($"{file}: {user.Name} may not sign in any more.");
        return CommandLine.Well;
    });

    /// <summary>Makes a token; it is printed this once.</summary>
    public int AddToken(string name) => With(users =>
    {
        if (users.Find(name) is not { } user)
        {
            return Say($"{file}: there is no user '{name}'; add one first with strokewatch page user add");
        }

        var (token, kept) = PageToken.Make(user.Name, surroundings.Time.GetUtcNow());
        (users with { Tokens = [.. users.Tokens, kept] }).Write(file);
        surroundings.Output.WriteLine(token);
        surroundings.Error.WriteLine($"This is the token {kept.Id}, which acts for {user.Name}. It is not shown again: keep it in a file of mode 600.");
        return CommandLine.Well;
    });

    /// <summary>Lists the tokens by their ids.</summary>
    public int ListTokens() => With(users =>
    {
        foreach (var token in users.Tokens)
        {
            surroundings.Output.WriteLine(FormattableString.Invariant($"{token.Id}  {token.User}  made {token.Made.UtcDateTime:yyyy-MM-dd HH:mm} UTC"));
        }

        return CommandLine.Well;
    });

    /// <summary>Removes a token.</summary>
    public int RemoveToken(string id) => With(users =>
    {
        if (users.Tokens.Count(token => token.Id == id) != 1)
        {
            return Say($"{file}: there is no token '{id}'; strokewatch page token list --users {file} names them");
        }

        (users with { Tokens = [.. users.Tokens.Where(token => token.Id != id)] }).Write(file);
        surroundings.Output.WriteLine($"{file}: the token {id} acts for nobody any more.");
        return CommandLine.Well;
    });

    private int With(Func<UsersFile, int> work)
    {
        if (!File.Exists(file))
        {
            return work(UsersFile.Empty);
        }

        if (UsersFile.Read(file, out var troubles) is { } users)
        {
            return work(users);
        }

        foreach (var trouble in troubles)
        {
            surroundings.Error.WriteLine(trouble);
        }

        return CommandLine.Bad;
    }

    private string? Password(bool fromInput)
    {
        if (!fromInput && surroundings.ReadKey is null)
        {
            _ = Say("strokewatch page user add: this is no terminal to type a password at; give it by standard input with --stdin");
            return null;
        }

        var password = fromInput ? SecretInput.Line(surroundings) : SecretInput.Keys("Password: ", surroundings.ReadKey!, surroundings);
        if (password is null || PasswordHash.Trouble(password) is not null)
        {
            _ = Say($"strokewatch page user add: {PasswordHash.Trouble(password ?? "")}");
            return null;
        }

        if (!fromInput && SecretInput.Keys("Once more: ", surroundings.ReadKey!, surroundings) != password)
        {
            _ = Say("strokewatch page user add: the two passwords differ; nothing was changed");
            return null;
        }

        return password;
    }

    private int Say(string trouble)
    {
        surroundings.Error.WriteLine(trouble);
        return CommandLine.Bad;
    }
}
