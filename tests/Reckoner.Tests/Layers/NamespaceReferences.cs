using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Reckoner.Tests.Layers;

/// <summary>
/// Which namespaces of an assembly use which others of it, read from what was compiled: signatures, bodies with what they catch,
/// attributes with the types they are given, what type arguments must be.
/// </summary>
internal static class NamespaceReferences
{
    /// <summary>For each namespace those it refers to, each with one place where it does.</summary>
    public static SortedDictionary<string, SortedDictionary<string, string>> Of(string assemblyPath)
    {
        using var module = ModuleDefinition.ReadModule(assemblyPath);
        return Of(module);
    }

    public static SortedDictionary<string, SortedDictionary<string, string>> Of(ModuleDefinition module)
    {
        var found = new SortedDictionary<string, SortedDictionary<string, string>>(StringComparer.Ordinal);
        foreach (var type in module.GetTypes())
        {
            var own = Namespace(type);
            foreach (var (used, member) in References(type))
            {
                foreach (var part in Parts(used))
                {
                    var other = Namespace(part);
                    if (other != own && other.StartsWith("Reckoner", StringComparison.Ordinal) && IsOf(module, part))
                    {
                        if (!found.TryGetValue(own, out var uses))
                        {
                            found[own] = uses = new(StringComparer.Ordinal);
                        }
                        uses.TryAdd(other, $"{type.FullName}.{member} uses {part.FullName}");
                    }
                }
            }
        }
        return found;
    }

    private static bool IsOf(ModuleDefinition module, TypeReference type) =>
        type.Scope == module || type.Scope?.Name == module.Name || type.Scope?.Name == module.Assembly.Name.Name;

    /// <summary>Nested types have none of their own.</summary>
    private static string Namespace(TypeReference type)
    {
        while (type.DeclaringType is not null)
        {
            type = type.DeclaringType;
        }
        return type.Namespace;
    }

    /// <summary>A type without arrays and by-references around it, and the types it is made with.</summary>
    private static IEnumerable<TypeReference> Parts(TypeReference type)
    {
        if (type is GenericInstanceType generic)
        {
            return generic.GenericArguments.SelectMany(Parts).Append(generic.ElementType);
        }
        return type is TypeSpecification specification ? Parts(specification.ElementType)
            : type is GenericParameter ? []
            : [type];
    }

    private static IEnumerable<(TypeReference Type, string Member)> References(TypeDefinition type)
    {
        if (type.BaseType is { } parent)
        {
            yield return (parent, "base");
        }
        foreach (var implemented in type.Interfaces)
        {
            yield return (implemented.InterfaceType, "interface");
        }
        foreach (var used in Attributes(type).Concat(Constraints(type)))
        {
            yield return (used, "head");
        }
        foreach (var field in type.Fields)
        {
            foreach (var used in Attributes(field).Prepend(field.FieldType))
            {
                yield return (used, field.Name);
            }
        }
        foreach (var property in type.Properties)
        {
            foreach (var used in Attributes(property))
            {
                yield return (used, property.Name);
            }
        }
        foreach (var raised in type.Events)
        {
            foreach (var used in Attributes(raised))
            {
                yield return (used, raised.Name);
            }
        }
        foreach (var method in type.Methods)
        {
            foreach (var used in Head(method).Concat(method.HasBody ? Body(method.Body) : []))
            {
                yield return (used, method.Name);
            }
        }
    }

    private static IEnumerable<TypeReference> Head(MethodDefinition method) =>
        [
            method.ReturnType,
            .. method.Parameters.Select(p => p.ParameterType),
            .. Attributes(method),
            .. Attributes(method.MethodReturnType),
            .. method.Parameters.SelectMany(Attributes),
            .. Constraints(method),
        ];

    private static IEnumerable<TypeReference> Body(MethodBody body) =>
        [
            .. body.Variables.Select(v => v.VariableType),
            .. body.Instructions.SelectMany(References),
            .. body.ExceptionHandlers.Select(h => h.CatchType).OfType<TypeReference>(),
        ];

    private static IEnumerable<TypeReference> Constraints(IGenericParameterProvider generic) =>
        generic.GenericParameters.SelectMany(p =>
            p.Constraints.SelectMany(c => Attributes(c).Prepend(c.ConstraintType)).Concat(Attributes(p))
        );

    private static IEnumerable<TypeReference> Attributes(ICustomAttributeProvider marked) =>
        marked.CustomAttributes.SelectMany(a =>
            a.ConstructorArguments.Concat(a.Properties.Concat(a.Fields).Select(n => n.Argument))
                .SelectMany(Given)
                .Prepend(a.AttributeType)
        );

    private static IEnumerable<TypeReference> Given(CustomAttributeArgument argument) =>
        argument.Value switch
        {
            TypeReference type => [type],
            CustomAttributeArgument boxed => Given(boxed),
            CustomAttributeArgument[] several => several.SelectMany(Given),
            // A number or a text; of an enumeration its type counts.
            _ => [argument.Type],
        };

    private static IEnumerable<TypeReference> References(Instruction instruction) =>
        instruction.Operand switch
        {
            TypeReference type => [type],
            MethodReference method => Called(method),
            FieldReference field => [field.DeclaringType, field.FieldType],
            _ => [],
        };

    private static IEnumerable<TypeReference> Called(MethodReference method)
    {
        IEnumerable<TypeReference> types =
        [
            method.DeclaringType,
            method.ReturnType,
            .. method.Parameters.Select(p => p.ParameterType),
        ];
        return method is GenericInstanceMethod generic ? types.Concat(generic.GenericArguments) : types;
    }
}
