using System.Globalization;
using System.Reflection;

namespace Reckoner.Tests.Layers;

/// <summary>What strangers can see of the core, and what of it the front door leads to.</summary>
internal static class PublicSurface
{
    private const BindingFlags Own =
        BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    /// <summary>Every type that a stranger meets who begins with one type and goes on with what its public members name.</summary>
    public static HashSet<Type> ReachedFrom(Type door)
    {
        var reached = new HashSet<Type>();
        var open = new Stack<Type>([door]);
        while (open.TryPop(out var type))
        {
            if (type.Assembly == door.Assembly && reached.Add(type))
            {
                foreach (var named in Named(type).SelectMany(Parts))
                {
                    open.Push(named);
                }
            }
        }
        return reached;
    }

    private static IEnumerable<Type> Named(Type type) =>
        type.GetMembers(Own)
            .SelectMany(Named)
            .Concat(type.GetInterfaces())
            .Concat(type.BaseType is { } parent ? [parent] : [])
            .Concat(type.DeclaringType is { } outer ? [outer] : [])
            .Concat(Kinds(type));

    /// <summary>Of an abstract type the public types that are one: whoever gets it gets one of them.</summary>
    private static IEnumerable<Type> Kinds(Type type) =>
        type.IsAbstract ? type.Assembly.GetExportedTypes().Where(t => t != type && type.IsAssignableFrom(t)) : [];

    private static IEnumerable<Type> Named(MemberInfo member) =>
        member switch
        {
            MethodInfo method => [method.ReturnType, .. method.GetParameters().Select(p => p.ParameterType)],
            ConstructorInfo constructor => constructor.GetParameters().Select(p => p.ParameterType),
            PropertyInfo property => [property.PropertyType],
            FieldInfo field => [field.FieldType],
            Type nested => [nested],
            _ => [],
        };

    private static IEnumerable<Type> Parts(Type type) =>
        type.HasElementType ? Parts(type.GetElementType()!)
        : type.IsGenericParameter ? []
        : type.IsGenericType ? type.GetGenericArguments().SelectMany(Parts).Append(type.GetGenericTypeDefinition())
        : [type];

    /// <summary>A line for each public type and, below it, for each public member, without what the compiler adds to records.</summary>
    public static IEnumerable<string> Lines(Assembly assembly) =>
        assembly
            .GetExportedTypes()
            .OrderBy(t => t.FullName, StringComparer.Ordinal)
            .SelectMany(t => Members(t).Prepend($"{Kind(t)} {Name(t, withNamespace: true)}"));

    private static IEnumerable<string> Members(Type type) =>
        type.GetMembers(Own)
            .Where(m => !IsMadeByCompiler(type, m))
            .Select(m => "    " + Line(m))
            .Distinct()
            .Order(StringComparer.Ordinal);

    private static bool IsMadeByCompiler(Type type, MemberInfo member) =>
        member is MethodInfo { IsSpecialName: true } method
            && !method.Name.StartsWith("op_Implicit", StringComparison.Ordinal)
        || member.Name is "<Clone>$" or "Deconstruct" or "Equals" or "GetHashCode" or "ToString" or "value__"
        || member is Type
        || type.IsEnum && member is not FieldInfo
        || member is ConstructorInfo { IsStatic: true };

    private static string Line(MemberInfo member) =>
        member switch
        {
            MethodInfo m => $"{Static(m.IsStatic)}{Name(m.ReturnType)} {m.Name}({Parameters(m)})",
            ConstructorInfo c => $"new({Parameters(c)})",
            PropertyInfo p => $"{Static(p.GetAccessors()[0].IsStatic)}{Name(p.PropertyType)} {p.Name}{Accessors(p)}",
            FieldInfo { IsLiteral: true, DeclaringType.IsEnum: true } f => string.Create(
                CultureInfo.InvariantCulture,
                $"{f.Name} = {Convert.ToInt64(f.GetRawConstantValue(), CultureInfo.InvariantCulture)}"
            ),
            FieldInfo f => $"{Static(f.IsStatic)}{Name(f.FieldType)} {f.Name}",
            _ => member.ToString()!,
        };

    private static string Static(bool isStatic) => isStatic ? "static " : "";

    private static string Accessors(PropertyInfo property) =>
        property.SetMethod is { IsPublic: true } ? " { get; set or init }" : "";

    private static string Parameters(MethodBase method) =>
        string.Join(", ", method.GetParameters().Select(p => $"{Name(p.ParameterType)} {p.Name}"));

    private static string Kind(Type type) =>
        type.IsEnum ? "enum"
        : type.IsInterface ? "interface"
        : type.IsValueType ? "struct"
        : type.IsAbstract && type.IsSealed ? "static class"
        : type.IsAbstract ? "abstract class"
        : "class";

    private static string Name(Type type, bool withNamespace = false)
    {
        if (type.HasElementType)
        {
            return Name(type.GetElementType()!) + (type.IsArray ? "[]" : "&");
        }
        var name = type.IsNested && !type.IsGenericParameter ? $"{Name(type.DeclaringType!)}.{type.Name}" : type.Name;
        if (type.IsGenericType)
        {
            var plain = name.Split('`')[0];
            name = $"{plain}<{string.Join(", ", type.GetGenericArguments().Select(a => Name(a)))}>";
        }
        return withNamespace ? $"{type.Namespace}.{name}" : name;
    }
}
