using System.CommandLine;
using StrokeWatch.Page.Access;

namespace StrokeWatch.Commands;

/// <summary>The command <c>page</c>: who may sign in to the page.</summary>
internal static class PageLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings) => new("page", "Who may sign in to the page, and which programs act for whom.")
    {
        new Command("user", "Those who may sign in.") { AddUser(surroundings), ListUsers(surroundings), RemoveUser(surroundings) },
        new Command("token", "Tokens by which programs act for a user.") { AddToken(surroundings), ListTokens(surroundings), RemoveToken(surroundings) },
    };

    private static Command AddUser(Surroundings surroundings)
    {
        var (name, file) = (Name(), Users());
        var role = new Option<string>("--role") { Description = $"The role: {string.Join(", ", PageRoles.All)}.", Required = true };
        role.AcceptOnlyFromAmong([.. PageRoles.All]);
        var input = new Option<bool>("--stdin") { Description = "Read the password as a line of standard input; without it, it is typed at the terminal and not shown." };
        var command = new Command("add", "Adds a user, or sets password and role anew.") { name, role, file, input };
        command.SetAction(parsed => Of(parsed, file, surroundings).Add(parsed.GetValue(name)!, PageRoles.Read(parsed.GetValue(role)!)!.Value, parsed.GetValue(input)));
        return command;
    }

    private static Command ListUsers(Surroundings surroundings)
    {
        var file = Users();
        var command = new Command("list", "Lists the users with their roles.") { file };
        command.SetAction(parsed => Of(parsed, file, surroundings).List());
        return command;
    }

    private static Command RemoveUser(Surroundings surroundings)
    {
        var (name, file) = (Name(), Users());
        var command = new Command("remove", "Removes a user with all of his tokens; a running daemon lets him do nothing more within seconds.") { name, file };
        command.SetAction(parsed => Of(parsed, file, surroundings).Remove(parsed.GetValue(name)!));
        return command;
    }

    private static Command AddToken(Surroundings surroundings)
    {
        var file = Users();
        var user = new Option<string>("--user") { Description = "The user for whom the program acts.", Required = true };
        var command = new Command("add", "Makes a token and prints it this once; only its hash is kept.") { user, file };
        command.SetAction(parsed => Of(parsed, file, surroundings).AddToken(parsed.GetValue(user)!));
        return command;
    }

    private static Command ListTokens(Surroundings surroundings)
    {
        var file = Users();
        var command = new Command("list", "Lists the tokens by their ids.") { file };
        command.SetAction(parsed => Of(parsed, file, surroundings).ListTokens());
        return command;
    }

    private static Command RemoveToken(Surroundings surroundings)
    {
        var file = Users();
        var id = new Argument<string>("ID") { Description = "The token's id, as the list gives it." };
        var command = new Command("remove", "Removes a token.") { id, file };
        command.SetAction(parsed => Of(parsed, file, surroundings).RemoveToken(parsed.GetValue(id)!));
        return command;
    }

    private static PageUserCommand Of(ParseResult parsed, Option<string> file, Surroundings surroundings) => new(parsed.GetValue(file)!, surroundings);

    private static Argument<string> Name() => new("NAME") { Description = "The user's name, as the journal of alarms writes it." };

    private static Option<string> Users() => new("--users") { Description = "The file of users that [page] users names.", Required = true };
}
