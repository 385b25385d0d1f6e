using System.Text;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Makes a feeder's name fit for a topic.</summary>
public static class MqttSlug
{
    /// <summary>Gives the name in small letters of ASCII and digits, all else as single hyphens; "feeder" where nothing is left.</summary>
    /// <remarks>A topic must hold none of + # / and no null (MQTT 5.0, section 4.7). The program runs without tables of Unicode, which taking marks off letters would need.</remarks>
    public static string Of(string name)
    {
        var slug = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsAsciiLetterOrDigit(letter))
            {
                slug.Append(char.ToLowerInvariant(letter));
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        var made = slug.ToString().TrimEnd('-');
        return made.Length == 0 ? "feeder" : made;
    }
}
