using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>A fundamental that leads from an instant on, and a second order that grows with it, through the meter: by how much it leads is told to half a milliradian, on a frequency that is none of the nominal one's.</summary>
public sealed class LeadThroughTheMeterTests
{
    private const int Rate = 1000;

    [Theory]
    [InlineData(49.973, 0.05)]
    [InlineData(50.021, -0.12)]
    public void The_lead_of_the_fundamental_is_told(double hertz, double lead)
    {
        var (random, listener) = (new Random(5), new Listener());
        var block = new SampleBlock(3, 5 * Rate) { RateHz = Rate, StartSeconds = 0 };
        for (var axis = 0; axis < 3; axis++)
        {
            var (first, second) = axis switch { 0 => (60.0, 3.0), 1 => (0, 0), _ => (25, 2) };
            var samples = block.Fill(axis);
            for (var i = 0; i < samples.Length; i++)
            {
                var (begun, phase) = (i >= 2.4 * Rate, 2 * Math.PI * hertz * i / Rate);
                phase += begun ? lead : 0;
                samples[i] = (first * Math.Cos(phase)) + ((begun ? 2 : 1) * second * Math.Cos((2 * phase) + 0.4)) + (0.02 * Signal.Gauss(random));
            }
        }

        block.SetCount(5 * Rate);
        new StrokeMeter(new() { Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = Rate, NominalHz = 50, StillBelowMetres = 0.01e-3, Blows = listener }).Add(block, listener);
        Assert.True(listener.Leads.Count >= 3, $"{listener.Leads.Count} windows had changed");
        Assert.Equal(lead, listener.Leads[1], 5e-4);
    }

    private sealed class Listener : IBlowListener, IWindowSink
    {
        public List<double> Leads { get; } = [];

        public void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd)
        {
        }

        public void TakeOnset(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd, ReadOnlySpan<double> orders)
        {
            Assert.Equal(OnsetChange.Foretold(orders), end[OnsetFeatures.WithoutTurn + OnsetTurn.Count] < 9);
            Leads.Add(orders[1]);
        }

        public void Window(in WindowReading reading)
        {
        }

        public void Decay(in DecayReading reading)
        {
        }
    }
}
