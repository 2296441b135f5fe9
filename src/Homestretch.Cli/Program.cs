using Homestretch.Cli;

using Spectre.Console;

return Shell.Run(args, TimeProvider.System, AnsiConsole.Console, Console.Out, Console.Error);
