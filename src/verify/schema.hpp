#pragma once

#include <string>
#include <vector>

#include "verify/document.hpp"

namespace rigdeed::verify {

/// What an object is for. A report has objects of these kinds and no others.
enum class Role {
    none,
    trailer,
    catalog,
    info,
    pages,
    page,
    resources,
    fonts,
    images,
    opacities,
    opacity,
    font,
    descendant,
    system,
    descriptor,
    program,
    plain_stream,
    image,
    outline,
    labels,
    label,
    metadata,
    intent,
    profile,
    preferences,
    structure_root,
    element,
    content_piece,
    attributes,
    parent_tree,
    marks,
    name_trees,
    file_tree,
    filespec,
    file_versions,
    file,
    file_parameters,
    form,
    permissions,
    annotation,
    link,
    widget,
    appearances,
    appearance,
    signature,
    reference,
    parameters,
    length,
};

/// The role of each object by number, found by following every reference from the trailer.
struct Roles {
    std::vector<Role> of;
    std::string fault;  ///< empty if every object has one role, and holds what that role allows and nothing else
};

[[nodiscard]] Roles assign_roles(const Document& document);

/// The page tree is one list that holds every page once (ISO 32000-1, 7.7.3). Returns what is wrong, or nothing.
[[nodiscard]] std::string check_page_list(const Document& document, const Roles& roles);

/// The numbers of all objects with a role.
[[nodiscard]] std::vector<std::size_t> with_role(const Roles& roles, Role role);

}  // namespace rigdeed::verify
