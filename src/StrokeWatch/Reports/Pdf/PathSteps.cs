using System.Globalization;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Reads a drawing's paths: SVG's letters M, L, H, V and Z with absolute places, which are all that drawings use.</summary>
internal static class PathSteps
{
    /// <summary>Gives the pieces of a path, each a line through points, closed or open.</summary>
    /// <exception cref="ArgumentException">The path holds another letter, or a number is missing.</exception>
    public static IReadOnlyList<(IReadOnlyList<(double X, double Y)> Points, bool Closed)> Read(string steps)
    {
        var pieces = new List<(IReadOnlyList<(double X, double Y)> Points, bool Closed)>();
        var points = new List<(double X, double Y)>();
        var at = 0;
        double x = 0, y = 0;
        while (at < steps.Length)
        {
            var letter = steps[at++];
            switch (letter)
            {
                case 'M':
                    End(false);
                    (x, y) = (Number(), Number());
                    break;
                case 'L':
                    (x, y) = (Number(), Number());
                    break;
                case 'H':
                    x = Number();
                    break;
                case 'V':
                    y = Number();
                    break;
                case 'Z':
                    End(true);
                    continue;
                default:
                    throw new ArgumentException($"A path holds '{letter}'; M, L, H, V and Z are known.", nameof(steps));
            }

            points.Add((x, y));
        }

        End(false);
        return pieces;

        void End(bool closed)
        {
            if (points.Count > 0)
            {
                pieces.Add((points, closed));
                points = [];
            }
        }

        double Number()
        {
            while (at < steps.Length && steps[at] == ' ')
            {
                at++;
            }

            var start = at;
            while (at < steps.Length && (char.IsAsciiDigit(steps[at]) || steps[at] is '.' or '-'))
            {
                at++;
            }

            return double.TryParse(steps.AsSpan(start, at - start), NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
                ? value
                : throw new ArgumentException($"A path lacks a number at {start}: {steps}", nameof(steps));
        }
    }
}
