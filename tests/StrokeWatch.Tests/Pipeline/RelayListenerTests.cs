using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

public sealed class RelayListenerTests
{
    private static readonly RelayOptions Options = new() { Chip = 0, Line = 1 };

    [Theory]
    [InlineData(AlarmKind.Strike, AlarmState.Unacknowledged, AlarmState.Unacknowledged, false)]
    [InlineData(AlarmKind.OverStroke, AlarmState.Acknowledged, AlarmState.Acknowledged, false)]
    [InlineData(AlarmKind.OverStroke, AlarmState.LatchedUnacknowledged, AlarmState.LatchedUnacknowledged, false)]
    [InlineData(AlarmKind.OverStroke, AlarmState.LatchedAcknowledged, AlarmState.LatchedAcknowledged, false)]
    [InlineData(AlarmKind.OverStroke, AlarmState.Shelved, AlarmState.Unacknowledged, false)]
    [InlineData(AlarmKind.OverStroke, AlarmState.Normal, AlarmState.Normal, true)]
    [InlineData(AlarmKind.SensorLost, AlarmState.ReturnedUnacknowledged, AlarmState.ReturnedUnacknowledged, true)]
    [InlineData(AlarmKind.SensorLost, AlarmState.OutOfService, AlarmState.Unacknowledged, true)]
    [InlineData(AlarmKind.Unmeasurable, AlarmState.SuppressedByDesign, AlarmState.Unacknowledged, true)]
    [InlineData(AlarmKind.StoreTrouble, AlarmState.Unacknowledged, AlarmState.Unacknowledged, false)]
    [InlineData(AlarmKind.HighStroke, AlarmState.Unacknowledged, AlarmState.Unacknowledged, true)]
    [InlineData(AlarmKind.MachineChanged, AlarmState.Unacknowledged, AlarmState.Unacknowledged, true)]
    public void The_relay_drops_for_what_holds_or_has_latched_shelved_or_not(AlarmKind kind, AlarmState state, AlarmState beneath, bool well)
    {
        AlarmView calm = new(new(AlarmKind.LowStroke), AlarmPriority.Low, AlarmState.Normal, AlarmState.Normal, default, "", null, "");
        AlarmView[] alarms = [calm, calm with { Id = new(kind), State = state, Beneath = beneath }];
        Assert.Equal(well, RelayListener.Well(Options, alarms));
        Assert.True(RelayListener.Well(Options, []));
    }
}
