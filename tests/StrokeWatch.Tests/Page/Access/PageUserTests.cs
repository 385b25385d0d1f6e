using StrokeWatch.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>The commands that say who may sign in, and the file they write.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class PageUserTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-users-").FullName;

    private string Users => Path.Combine(folder, "page-users.toml");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_user_is_added_by_standard_input_listed_changed_and_removed_with_his_tokens()
    {
        Assert.Equal((0, ""), Add("Kim Berg", "operator", "a long password\n"));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Users));
        var text = File.ReadAllText(Users);
        Assert.DoesNotContain("a long password", text, StringComparison.Ordinal);
        Assert.Contains($"pbkdf2-sha256${PasswordHash.UsualIterations}$", text, StringComparison.Ordinal);
        Assert.True(UsersFile.Read(Users, out _)!.Find("kim berg")!.Password.Fits("a long password"));
        Assert.False(UsersFile.Read(Users, out _)!.Find("kim berg")!.Password.Fits("a long passwore"));

        var (status, token, told) = CommandRun.Of("page", "token", "add", "--user", "kim berg", "--users", Users);
        Assert.Equal(0, status);
        Assert.DoesNotContain(token.Trim(), File.ReadAllText(Users), StringComparison.Ordinal);
        Assert.Contains("not shown again", told, StringComparison.Ordinal);
        Assert.Equal("Kim Berg  operator  tokens: 1\n", CommandRun.Of("page", "user", "list", "--users", Users).Output);
        Assert.Equal((0, ""), Add("kim berg", "engineer", "another password\n"));
        Assert.Equal("Kim Berg  engineer  tokens: 1\n", CommandRun.Of("page", "user", "list", "--users", Users).Output);
        Assert.Equal(0, CommandRun.Of("page", "user", "remove", "Kim Berg", "--users", Users).Status);
        Assert.Equal("", CommandRun.Of("page", "token", "list", "--users", Users).Output);
    }

    [Fact]
    public void At_a_terminal_the_password_is_typed_twice_and_never_shown()
    {
        var keys = new Queue<char>("four blux\u007fe trays\rfour blue trays\r");
        var (status, output, error) = CommandRun.With("", keys.Dequeue, "page", "user", "add", "Kim", "--role", "technician", "--users", Users);
        Assert.Equal(0, status);
        Assert.DoesNotContain("blue", output + error, StringComparison.Ordinal);
        Assert.True(UsersFile.Read(Users, out _)!.Find("Kim")!.Password.Fits("four blue trays"));

        keys = new Queue<char>("four blue trays\rfour blue tray\r");
        (status, _, error) = CommandRun.With("", keys.Dequeue, "page", "user", "add", "Lee", "--role", "technician", "--users", Users);
        Assert.Equal(2, status);
        Assert.Contains("differ", error, StringComparison.Ordinal);
        Assert.Null(UsersFile.Read(Users, out _)!.Find("Lee"));
    }

    [Theory]
    [InlineData("Kim", "operator", "short\n", "8 to 200 characters")]
    [InlineData("Kim", "operator", "", "8 to 200 characters")]
    [InlineData("K\"im", "operator", "a long password\n", "letters, digits")]
    [InlineData("Kim", "boss", "a long password\n", "operator")]
    public void What_will_not_do_is_said_in_one_line_and_nothing_is_written(string name, string role, string password, string words)
    {
        var (status, error) = Add(name, role, password);
        Assert.Equal(2, status);
        Assert.Contains(words, Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.False(File.Exists(Users));
    }

    [Fact]
    public void A_file_that_others_may_read_or_that_was_tampered_with_is_said_and_left()
    {
        Assert.Equal(0, Add("Kim", "operator", "a long password\n").Status);
        File.SetUnixFileMode(Users, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        Assert.Contains("chmod 600", CommandRun.Of("page", "user", "list", "--users", Users).Error, StringComparison.Ordinal);
        File.SetUnixFileMode(Users, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        var text = File.ReadAllText(Users);
        foreach (var (from, to, words) in ((string, string, string)[])
        [
            ("$600000$", "$1$", "set it anew"),
            ("operator", "admiral", "\"operator\" or"),
            ("[[user]]", "[[token]]\nuser = \"Lee\"\nsha256 = \"" + new string('a', 64) + "\"\n[[user]]", "who is no user"),
            ("name =", "nam =", "unknown key `nam`"),
        ])
        {
            File.WriteAllText(Users, text.Replace(from, to, StringComparison.Ordinal));
            Assert.Null(UsersFile.Read(Users, out var troubles));
            Assert.Contains(troubles, trouble => trouble.Contains(words, StringComparison.Ordinal) && trouble.StartsWith(Users + ":", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void The_hash_is_that_of_rfc_7914_s_pbkdf2_hmac_sha_256()
    {
        // RFC 7914, section 11, gives PBKDF2-HMAC-SHA-256 ("Password", "NaCl", c=80000, dkLen=64); its first 32 bytes are what a key of 32 bytes is.
        var key = System.Security.Cryptography.Rfc2898DeriveBytes.Pbkdf2("Password", "NaCl"u8.ToArray(), 80_000, System.Security.Cryptography.HashAlgorithmName.SHA256, 32);
        Assert.Equal("4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56", Convert.ToHexStringLower(key));
        Assert.True(PasswordHash.Read(PasswordHash.Make("Caf\u00e9 am Ofen", 100_000).ToString())!.Fits("Caf\u00e9 am Ofen"));
    }

    [Fact]
    public void The_brake_holds_so_many_and_a_name_no_longer_than_a_minute()
    {
        var time = new Microsoft.Extensions.Time.Testing.FakeTimeProvider();
        var brake = new SignInBrake(time);
        for (var i = 0; i < 5000; i++)
        {
            _ = brake.Begin(new([10, (byte)(i >> 16), (byte)(i >> 8), (byte)i]), $"name {i}");
        }

        Assert.Equal(2 * SignInBrake.Most, brake.Count);
        var longest = TimeSpan.Zero;
        for (var i = 0; i < 40; i++)
        {
            if (brake.Begin(new([11, 0, 0, (byte)i]), "Olga") is { } wait)
            {
                longest = wait > longest ? wait : longest;
                time.Advance(wait);
            }
        }

        Assert.Equal(60, longest.TotalSeconds);

        // One address that tries name after name is held up for longer, and longer than that for none.
        var address = System.Net.IPAddress.Parse("2001:db8::1");
        longest = TimeSpan.Zero;
        for (var i = 0; i < 60; i++)
        {
            if (brake.Begin(i % 2 == 0 ? address : System.Net.IPAddress.Parse("2001:db8::ffff"), $"other {i}") is { } wait)
            {
                longest = wait > longest ? wait : longest;
                time.Advance(wait);
            }
        }

        Assert.Equal(900, longest.TotalSeconds);
    }

    private (int Status, string Error) Add(string name, string role, string password)
    {
        var (status, _, error) = CommandRun.With(password, null, "page", "user", "add", name, "--role", role, "--users", Users, "--stdin");
        return (status, error);
    }
}
