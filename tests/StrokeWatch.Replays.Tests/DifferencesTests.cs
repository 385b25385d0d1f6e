using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.Replays.Tests;

/// <summary>The comparison itself must be able to fail.</summary>
public sealed class DifferencesTests
{
    [Theory]
    [InlineData("""{"pp_mm":1.714815}""", """{"pp_mm":1.714816}""", 0)]
    [InlineData("""{"pp_mm":1.714815}""", """{"pp_mm":1.714818}""", 1)]
    [InlineData("""{"samples":12851}""", """{"samples":12852}""", 1)]
    [InlineData("""{"a":null}""", """{"a":0}""", 1)]
    [InlineData("""{"a":[1,2]}""", """{"a":[1]}""", 1)]
    [InlineData("""{"a":"in band"}""", """{"a":"in-band"}""", 1)]
    [InlineData("""{"a":1,"b":2}""", """{"b":2,"c":3}""", 2)]
    [InlineData("""{"found":true}""", """{"found":false}""", 1)]
    public void Differences_are_found(string golden, string now, int count) =>
        Assert.Equal(count, Differences.Between(JsonNode.Parse(golden), JsonNode.Parse(now)).Count);
}
