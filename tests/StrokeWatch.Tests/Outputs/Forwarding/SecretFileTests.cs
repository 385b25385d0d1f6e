using StrokeWatch.Outputs.Forwarding;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Forwarding;

public sealed class SecretFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-token-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_token_of_its_owner_s_own_is_read_without_what_surrounds_it()
    {
        Assert.Equal("s3cret==", SecretFile.Read(Write(" s3cret==\n", UnixFileMode.UserRead | UnixFileMode.UserWrite), "token", out var trouble));
        Assert.Null(trouble);
    }

    [SkippableTheory]
    [InlineData(UnixFileMode.UserRead | UnixFileMode.GroupRead, "mode 440")]
    [InlineData(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead, "mode 604")]
    [InlineData(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherWrite, "mode 602")]
    public void A_token_that_others_can_reach_is_not_used(UnixFileMode mode, string words)
    {
        Skip.If(OperatingSystem.IsWindows(), "Modes are those of Unix.");
        Assert.Null(SecretFile.Read(Write("s3cret", mode), "token", out var trouble));
        Assert.Contains(words, trouble, StringComparison.Ordinal);
        Assert.Contains("chmod 600", trouble, StringComparison.Ordinal);
        Assert.DoesNotContain("s3cret", trouble, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void What_systemd_keeps_for_the_service_is_read_whatever_its_mode_shows_but_only_there()
    {
        Skip.If(OperatingSystem.IsWindows(), "Modes are those of Unix.");
        var path = Write("s3cret", UnixFileMode.UserRead | UnixFileMode.GroupRead);
        Assert.Equal("s3cret", SecretFile.Read(path, "token", folder + "/", out _));
        Assert.Null(SecretFile.Read(path, "token", Path.GetTempPath(), out var trouble));
        Assert.Contains("mode 440", trouble, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \n")]
    [InlineData("two words")]
    [InlineData("two\nlines")]
    [InlineData("glass\u00e9")]
    public void What_is_no_token_is_said_without_being_shown(string text)
    {
        Assert.Null(SecretFile.Read(Write(text, UnixFileMode.UserRead | UnixFileMode.UserWrite), "token", out var trouble));
        Assert.EndsWith("holds no token: one line without spaces was expected and nothing else", trouble, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_or_far_too_long_is_said()
    {
        Assert.Null(SecretFile.Read(Path.Combine(folder, "none"), "token", out var trouble));
        Assert.Contains("is not there", trouble, StringComparison.Ordinal);
        Assert.Null(SecretFile.Read(Write(new('x', 5000), UnixFileMode.UserRead), "token", out trouble));
        Assert.Contains("holds more than a token", trouble, StringComparison.Ordinal);
    }

    private string Write(string text, UnixFileMode mode)
    {
        var path = Path.Combine(folder, "token");
        File.WriteAllText(path, text);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, mode);
        }

        return path;
    }
}
