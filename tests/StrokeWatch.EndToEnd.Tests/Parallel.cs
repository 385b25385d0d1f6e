using Xunit;

// Most of these tests wait for a daemon, so that three at a time keep two cores busy; those that keep real time still run alone.
[assembly: CollectionBehavior(MaxParallelThreads = 3)]
