// The theme selects a content tab named in the address; kept because its bundle expects the state to be set by now.
{
  const target = document.getElementById(location.hash.slice(1));
  if (target && target.name) target.checked = target.name.startsWith("__tabbed_");
}
