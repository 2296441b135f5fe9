using Homestretch.Store.Tests;

// The same program is the tests and, started by one of them, the writer that is killed.
return args is [Writer.Switch, var kind, var place, var run]
    ? await Writer.RunAsync(kind, place, run)
    : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);
