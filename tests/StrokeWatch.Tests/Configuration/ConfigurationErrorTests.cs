using StrokeWatch.Configuration.Toml;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

/// <summary>Found by the benchmark project's <c>fuzz watch</c>: a name with a line end in it broke the one line that an error is.</summary>
public sealed class ConfigurationErrorTests
{
    [Theory]
    [InlineData("in\nflux.token is not there", @"in\u000aflux.token is not there")]
    [InlineData("a\r\u001b[31m\u2028b", @"a\u000d\u001b[31m\u2028b")]
    [InlineData("a plain path é", "a plain path é")]
    public void An_error_is_one_line_whatever_a_file_names(string message, string line)
    {
        Assert.Equal($"sand.toml:3: {line}", new ConfigurationError("sand.toml", 3, message).ToString());
        Assert.Equal($"sand.toml: {line}", new ConfigurationError("sand.toml", 0, message).ToString());
    }
}
