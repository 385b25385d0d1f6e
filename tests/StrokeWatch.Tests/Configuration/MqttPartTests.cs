using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Mqtt;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class MqttPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Every_value_is_taken_from_the_table_and_paths_count_from_the_file_s_folder()
    {
        folder.Write("ca.pem", "");
        Password();
        var read = Read("host = \"broker\"\nport = 18883\ntls = true\nca_file = \"ca.pem\"\nuser = \"sand\"\npassword_file = \"password\"\nprefix = \"glass/works\"\ntopic = \"bin-4\"\nversion = \"3.1.1\"");
        Assert.Empty(read.Errors);
        Assert.Equal(
            new MqttOptions
            {
                Host = "broker",
                Port = 18_883,
                Tls = true,
                CaPath = folder.At("ca.pem"),
                User = "sand",
                PasswordPath = folder.At("password"),
                Prefix = "glass/works",
                Topic = "bin-4",
                Old = true,
            },
            read.Value!.Mqtt);
        Assert.Equal("glass/works/bin-4/alarm", read.Value.Mqtt!.TopicOf("alarm"));
    }

    [Fact]
    public void The_host_is_enough_and_the_topic_is_then_made_from_the_feeder_s_name()
    {
        Assert.Equal(new MqttOptions { Host = "broker", Port = 1883, Topic = "sand" }, Read("host = \"broker\"").Value!.Mqtt);
        Assert.Equal(8883, Read("host = \"broker\"\ntls = true").Value!.Mqtt!.Port);
        Assert.Null(Read(null).Value!.Mqtt);
    }

    [Fact]
    public void Sparkplug_needs_names_without_slashes_and_has_no_prefix()
    {
        var options = Read("host = \"broker\"\nprofile = \"sparkplug\"\ngroup = \"Glass\"\ntopic = \"bin-4\"").Value!.Mqtt!;
        Assert.Equal((MqttProfile.Sparkplug, "Glass", "bin-4"), (options.Profile, options.Group, options.Topic));
        Assert.Contains("neither `group` nor `topic` holds a slash", Assert.Single(Read("host = \"broker\"\nprofile = \"sparkplug\"\ngroup = \"a/b\"").Errors).Message, StringComparison.Ordinal);
        Assert.Single(Read("host = \"broker\"\nprofile = \"sparkplug\"\nprefix = \"glass\"").Errors);
        Assert.Equal("control-room", Read("host = \"broker\"\nprofile = \"sparkplug\"\nprimary_host = \"control-room\"").Value!.Mqtt!.PrimaryHost);
        Assert.Contains("is of use only with", Assert.Single(Read("host = \"broker\"\nprimary_host = \"control-room\"").Errors).Message, StringComparison.Ordinal);
        Assert.Contains("no slash, plus or hash", Assert.Single(Read("host = \"broker\"\nprofile = \"sparkplug\"\nprimary_host = \"a/b\"").Errors).Message, StringComparison.Ordinal);
        Assert.Contains("of use only with", Assert.Single(Read("host = \"broker\"\ngroup = \"glass\"").Errors).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void All_that_is_wrong_comes_at_once_with_its_line()
    {
        var errors = Read("port = 0\ntls = false\nca_file = \"none.pem\"\npassword_file = \"none\"\nprefix = \"a/#\"\ntopic = \"/x\"\nversion = \"4\"\npassword = \"s3cret\"").Errors;
        Assert.Equal([7, 8, 10, 10, 11, 11, 12, 13, 14, 15], errors.Select(error => error.Line).Order());
        Assert.DoesNotContain(errors, error => error.Message.Contains("s3cret", StringComparison.Ordinal));
    }

    private void Password()
    {
        folder.Write("password", "s3cret\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(folder.At("password"), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    private ConfigurationResult<WatchConfiguration> Read(string? table)
    {
        folder.Write("sand.toml", Examples.Least);
        var mqtt = table is null ? "" : $"\n[mqtt]\n{table}";
        return WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"frames\"\n[store]\npath = \"s.db\"{mqtt}"));
    }
}
