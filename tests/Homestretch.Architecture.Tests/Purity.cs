using System.Text.RegularExpressions;

using ArchUnitNET.Domain;
using ArchUnitNET.Domain.Extensions;

namespace Homestretch.Architecture.Tests;

/// <summary>What the model must not touch: files, the network, the console, the machine, the clock, chance, and state shared by all.</summary>
internal static partial class Purity
{
    public static IEnumerable<string> Violations(IEnumerable<IType> types)
    {
        foreach (IType type in types)
        {
            foreach (string target in type.Dependencies.Select(d => d.Target.FullName).Distinct().Where(name => ForbiddenType().IsMatch(name)))
            {
                yield return $"{type.FullName} uses {target}";
            }

            foreach (string call in type.GetCalledMethods().Select(m => $"{m.DeclaringType.FullName}.{m.Name}").Distinct().Where(name => ForbiddenCall().IsMatch(name)))
            {
                yield return $"{type.FullName} calls {call}";
            }
        }
    }

    /// <summary>Static fields that can change after the program has started.</summary>
    public static IEnumerable<string> Globals(IEnumerable<Type> types)
        => from type in types
           from field in type.GetFields(System.Reflection.BindingFlags.Static | System.Reflection.BindingFlags.Public | System.Reflection.BindingFlags.NonPublic | System.Reflection.BindingFlags.DeclaredOnly)
           where !field.IsInitOnly && !field.IsLiteral && !IsGenerated(type.Name) && !IsGenerated(field.Name)
           select $"{type.FullName}.{field.Name}";

    // The compiler keeps lambdas in such fields.
    private static bool IsGenerated(string name) => name.Contains("<>", StringComparison.Ordinal);

    [GeneratedRegex(@"^System\.(IO|Net|Diagnostics)\.|^System\.(Console|AppContext|AppDomain|TimeProvider|Random)$|^System\.Threading\.(Thread|Timer)$|^System\.Security\.Cryptography\.|^NodaTime\.(SystemClock|IClock)$")]
    private static partial Regex ForbiddenType();

    // Every method with 'yield' asks for the thread's number; long work may share itself among the processors there are.
    [GeneratedRegex(@"^System\.Environment\.(?!get_CurrentManagedThreadId|get_ProcessorCount)|^System\.DateTime(Offset)?\.get_(Now|UtcNow|Today)|^System\.Guid\.NewGuid|^System\.TimeZoneInfo\.get_Local|^NodaTime\.DateTimeZoneProviders\.|^NodaTime\.IDateTimeZoneProvider\.GetSystemDefault")]
    private static partial Regex ForbiddenCall();
}
