using System.Net;
using StrokeWatch.Configuration;
using StrokeWatch.Tests.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class PagePartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Without_the_table_no_page_is_served_and_with_it_only_this_machine_can_ask()
    {
        Assert.Null(Read("").Value!.Page);
        Assert.Equal(new(IPAddress.Loopback, 8787), Read("[page]").Value!.Page!.Listen);
    }

    [Theory]
    [InlineData("127.0.0.1:80", "127.0.0.1:80")]
    [InlineData("[::1]:8787", "[::1]:8787")]
    [InlineData("localhost:9000", "127.0.0.1:9000")]
    public void An_address_of_this_machine_is_taken(string written, string read) => Assert.Equal(read, Read($"[page]\nlisten = \"{written}\"").Value!.Page!.Listen.ToString());

    [Fact]
    public void An_address_that_others_reach_must_be_meant()
    {
        Assert.Contains("open_reading = true", Assert.Single(Read("[page]\nlisten = \"0.0.0.0:8787\"").Errors).Message, StringComparison.Ordinal);
        Assert.Contains("plain = true", Assert.Single(Read("[page]\nlisten = \"0.0.0.0:8787\"\nopen_reading = true").Errors).Message, StringComparison.Ordinal);
        var page = Read("[page]\nlisten = \"0.0.0.0:8787\"\nopen_reading = true\nplain = true\nnames = [\"cullet-board\"]").Value!.Page!;
        Assert.Equal((IPAddress.Any, "cullet-board"), (page.Listen.Address, Assert.Single(page.Names)));
    }

    [Theory]
    [InlineData("listen = \"127.0.0.1\"", "`listen` is")]
    [InlineData("listen = \"::1\"", "`listen` is")]
    [InlineData("listen = \"feeder:8787\"", "`listen` is")]
    [InlineData("listen = \"127.0.0.1:99999\"", "`listen` is")]
    [InlineData("listen = 8787", "page.listen")]
    [InlineData("names = [1]", "`names` holds a number")]
    [InlineData("port = 8787", "unknown key `port`")]
    [InlineData("users = \"nobody.toml\"", "strokewatch page user add")]
    [InlineData("certificate = \"page.pem\"", "one is missing")]
    [InlineData("idle_min = 0", "page.idle_min")]
    public void What_is_wrong_is_said_with_its_line(string line, string words)
    {
        var error = Assert.Single(Read($"[page]\n{line}").Errors);
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
        Assert.Equal(8, error.Line);
    }

    [Fact]
    public void A_certificate_that_is_none_or_whose_key_everybody_may_read_is_said_in_one_line()
    {
        using var made = new SignInTests.CertificateFolder();
        var both = $"[page]\ncertificate = \"{made.Certificate}\"\nkey = \"{made.Key}\"\nlisten = \"0.0.0.0:8443\"\nopen_reading = true";
        var page = Read(both).Value!.Page!;
        Assert.Equal(("CN=cullet-board", false), (page.Certificate!.Own.Subject, page.Unencrypted));
        File.SetUnixFileMode(made.Key, UnixFileMode.UserRead | UnixFileMode.OtherRead);
        Assert.Contains("chmod 600", Assert.Single(Read(both).Errors).Message, StringComparison.Ordinal);
        File.SetUnixFileMode(made.Key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        File.WriteAllText(made.Key, "no key");
        Assert.Contains("are no certificate in PEM with its key", Assert.Single(Read(both).Errors).Message, StringComparison.Ordinal);
        File.Delete(made.Key);
        Assert.Contains("page.key is not there", Assert.Single(Read(both).Errors).Message, StringComparison.Ordinal);
    }

    private StrokeWatch.Configuration.Toml.ConfigurationResult<WatchConfiguration> Read(string page)
    {
        folder.Write("sand.toml", Examples.Least);
        return WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"frames\"\n[store]\npath = \"s.db\"\n{page}\n"));
    }
}
