using StrokeWatch.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

/// <summary>Average run lengths against the tables from which charts are designed by hand.</summary>
public sealed class RunLengthTableTests
{
    private static readonly double[] Shifts = [0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4];

    /// <summary>Computed by 80-node Nyström in double precision by a separate program (Python, numpy).</summary>
    public static TheoryData<string, double, double, double[]> Computed() => new()
    {
        { "cusum", 0.5, 4, [167.6838, 74.22403, 26.6302, 13.28509, 8.383132, 4.747168, 3.34277, 2.619519, 2.194481, 1.708457] },
        { "cusum", 0.5, 5, [465.4435, 139.4937, 37.99614, 17.04833, 10.37597, 5.747218, 4.008871, 3.113688, 2.573252, 2.012568] },
        { "cusum", 0.5, 4.77, [368.5614, 121.3127, 35.20817, 16.17292, 9.917042, 5.517152, 3.855294, 2.998586, 2.484444, 1.955816] },
        { "ewma", 0.4, 3.054, [499.9513, 223.7278, 71.2005, 28.41838, 14.26276, 5.874942, 3.521539, 2.53915, 2.01863, 1.439896] },
        { "ewma", 0.25, 2.998, [499.836, 170.2959, 48.29388, 20.11475, 11.1355, 5.463744, 3.613711, 2.744753, 2.257563, 1.727028] },
        { "ewma", 0.2, 2.962, [499.7351, 150.2164, 41.7644, 18.14962, 10.54167, 5.500649, 3.743439, 2.88027, 2.380903, 1.864366] },
        { "ewma", 0.1, 2.814, [499.5796, 106.3219, 31.29744, 15.84754, 10.33067, 6.084184, 4.362253, 3.441698, 2.868004, 2.193095] },
        { "ewma", 0.05, 2.615, [499.933, 84.00586, 28.76373, 16.37415, 11.3828, 7.112491, 5.22488, 4.167864, 3.496172, 2.694548] },
        { "ewma", 0.5, 3.071, [499.906, 254.7847, 88.79539, 35.91326, 17.47663, 6.526199, 3.627999, 2.497274, 1.925671, 1.336131] },
        { "ewma", 0.03, 2.437, [499.8592, 76.72574, 29.32098, 17.6343, 12.59758, 8.068043, 5.986839, 4.797393, 4.029276, 3.108821] },
        { "shewhart", 0, 3, [370.3983, 281.1525, 155.2242, 81.2157, 43.89468, 14.96769, 6.302963, 3.241097, 2, 1.188573] },
    };

    /// <summary>The papers' own digits: Lucas and Crosier 1982 table 1, Lucas and Saccucci 1990 table 3 (both as quoted in the manual of the package spc of CRAN); Montgomery tables 9.3 and 9.10 (from memory). NaN: not quoted.</summary>
    public static TheoryData<string, double, double, double[]> Published() => new()
    {
        { "cusum", 0.5, 4, [168, 74.2, 26.6, 13.3, 8.38, 4.75, 3.34, 2.62, 2.19, 1.71] },
        { "cusum", 0.5, 5, [465, 139, 38.0, 17.0, 10.4, 5.75, 4.01, 3.11, 2.57, 2.01] },
        { "ewma", 0.5, 3.071, [500, 255, 88.8, 35.9, 17.5, 6.53, 3.63, 2.50, 1.93, 1.34] },
        { "ewma", 0.03, 2.437, [500, 76.7, 29.3, 17.6, 12.6, 8.07, 5.99, 4.80, 4.03, 3.11] },
        { "ewma", 0.4, 3.054, [500, double.NaN, double.NaN, double.NaN, 14.3, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN] },
        { "ewma", 0.25, 2.998, [500, double.NaN, double.NaN, double.NaN, 11.1, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN] },
        { "ewma", 0.2, 2.962, [500, double.NaN, double.NaN, double.NaN, 10.5, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN] },
        { "ewma", 0.1, 2.814, [500, double.NaN, double.NaN, double.NaN, 10.3, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN] },
        { "ewma", 0.05, 2.615, [500, double.NaN, double.NaN, double.NaN, 11.4, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN] },
    };

    [Theory]
    [MemberData(nameof(Computed))]
    public void Run_lengths_equal_the_computed_table(string chart, double first, double limit, double[] expected)
    {
        for (var i = 0; i < Shifts.Length; i++)
        {
            Assert.Equal(expected[i], Length(chart, first, limit, Shifts[i]), expected[i] * 1e-6);
        }
    }

    [Theory]
    [MemberData(nameof(Published))]
    public void Run_lengths_round_to_the_published_digits(string chart, double first, double limit, double[] expected)
    {
        for (var i = 0; i < Shifts.Length; i++)
        {
            if (double.IsNaN(expected[i]))
            {
                continue;
            }

            var unit = Math.Pow(10, Math.Floor(Math.Log10(expected[i])) - 2);
            Assert.InRange(Length(chart, first, limit, Shifts[i]), expected[i] - 0.51 * unit, expected[i] + 0.51 * unit);
        }
    }

    /// <summary>Crowder 1987 table 1, L = 2 (his 3.95 at a shift of 1.25 is a known slip), and the same computed.</summary>
    [Theory]
    [InlineData(0, 26.45, 26.451942)]
    [InlineData(0.5, 11.89, 11.894987)]
    [InlineData(1, 4.91, 4.9063955)]
    [InlineData(2, 1.94, 1.9452201)]
    public void Crowders_averages_are_reproduced(double shift, double published, double computed)
    {
        var length = EwmaRunLength.FixedLimits(0.5, 2, new(shift));
        Assert.Equal(computed, length, computed * 1e-7);
        Assert.Equal(published, length, 0.0055);
    }

    /// <summary>The manual of the package spc of CRAN quotes both to ten digits and more.</summary>
    [Fact]
    public void Values_of_high_precision_are_reproduced()
    {
        Assert.Equal(11.154267016, EwmaRunLength.FixedLimits(0.25, 3, new(1)), 1e-8);
        Assert.Equal(4.1500836225, CusumRunLength.OneSided(0.25, 8, new(2.5)), 1e-6);
    }

    /// <summary>Brook and Evans 1972, and Vance 1986 (k = 0).</summary>
    [Theory]
    [InlineData(0.5, 3, 0, 117.595704, 117.59, 0.006)]
    [InlineData(0.5, 3, 1.5, 3.7491084, 3.75, 0.005)]
    [InlineData(0, 10, 0, 124.66, 124.66, 0.005)]
    [InlineData(0, 10, 0.5, 20.37, 20.37, 0.005)]
    [InlineData(0, 10, 1, 10.75, 10.75, 0.005)]
    public void One_sided_sums_are_those_of_the_papers(double allowance, double decision, double shift, double computed, double published, double rounding)
    {
        var length = CusumRunLength.OneSided(allowance, decision, new(shift));
        Assert.Equal(published, length, rounding);
        Assert.Equal(computed, length, rounding);
    }

    /// <summary>Siegmund 1985 by Montgomery's formula (from memory); two sides in control are half of one.</summary>
    [Fact]
    public void Siegmunds_approximation_gives_its_known_values()
    {
        Assert.Equal(938.222364, CusumRunLength.Siegmund(0.5, 5, 0), 1e-6);
        Assert.Equal(469.111182, CusumRunLength.Siegmund(0.5, 5, 0) / 2, 1e-6);
        Assert.Equal(5.6660022, CusumRunLength.Siegmund(0.5, 5, 1.5), 1e-7);
    }

    /// <summary>Lucas and Crosier 1982, table 2: h = 4, k = 0.5, head start 2 (from memory).</summary>
    [Theory]
    [InlineData(0, 149, 0.5)]
    [InlineData(0.25, 62.7, 0.05)]
    [InlineData(0.5, 20.1, 0.05)]
    [InlineData(1, 5.29, 0.005)]
    [InlineData(2, 2.01, 0.005)]
    public void A_fast_initial_response_shortens_what_it_should(double shift, double published, double rounding) =>
        Assert.Equal(published, CusumRunLength.TwoSided(0.5, 4, new(shift), 2), rounding);

    private static double Length(string chart, double first, double limit, double shift) => chart switch
    {
        "cusum" => CusumRunLength.TwoSided(first, limit, new(shift)),
        "ewma" => EwmaRunLength.FixedLimits(first, limit, new(shift)),
        _ => ShewhartRunLength.TwoSided(limit, new(shift)),
    };
}
