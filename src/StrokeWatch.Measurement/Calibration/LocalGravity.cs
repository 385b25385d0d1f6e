using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>The acceleration of free fall at a place, in m/s², and how well it is known.</summary>
/// <param name="Value">The acceleration in m/s².</param>
/// <param name="RelativeHalfWidth">Half-width of its rectangular uncertainty, relative.</param>
/// <param name="Basis">How it is known, for people.</param>
public sealed record LocalGravity(double Value, double RelativeHalfWidth, string Basis)
{
    /// <summary>What standard gravity can be off by at sea level, equator to pole: 0.27 %.</summary>
    private const double AnywhereOnEarth = 0.0027;

    /// <summary>What the ellipsoid's value leaves out: rock and mountains, about 100 mGal (from memory).</summary>
    private const double Anomaly = 1e-4;

    /// <summary>What an unknown height of up to 1000 m leaves out.</summary>
    private const double UnknownHeight = 3.2e-4;

    /// <summary>What a value from a survey or an institute is taken to be right within (common practice, no source).</summary>
    private const double GivenValue = 1e-5;

    /// <summary>Standard gravity, where the place is unknown.</summary>
    public static LocalGravity Unknown { get; } = new(Gravity.Standard, AnywhereOnEarth, "place unknown: standard gravity within 0.27 %, rectangular");

    /// <summary>Makes it from a value in m/s² that the user knows.</summary>
    public static LocalGravity Given(double value) => new(value, GivenValue, "local gravity given, within 10 ppm, rectangular");

    /// <summary>Makes it from the latitude in degrees, and the height in metres where known, by the formula of Somigliana with the constants of WGS 84.</summary>
    public static LocalGravity At(double latitudeDegrees, double? heightMetres)
    {
        var value = OnEllipsoid(latitudeDegrees) - 3.086e-6 * (heightMetres ?? 0);
        return heightMetres is null
            ? new(value, UnknownHeight, "gravity of the latitude, height unknown: within 0.032 %, rectangular")
            : new(value, Anomaly, "gravity of latitude and height, within 0.01 %, rectangular");
    }

    /// <summary>Gives normal gravity on the ellipsoid of WGS 84 in m/s² (Somigliana).</summary>
    public static double OnEllipsoid(double latitudeDegrees)
    {
        var sine = Math.Sin(latitudeDegrees * Math.PI / 180);
        return 9.7803253359 * (1 + 0.00193185265241 * sine * sine) / Math.Sqrt(1 - 0.00669437999014 * sine * sine);
    }
}
