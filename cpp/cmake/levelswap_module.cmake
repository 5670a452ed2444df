# One module of the library:
#
#   levelswap_module(NAME catalog USES physics document PRIVATE_PACKAGES yaml-cpp)
#
# USES names modules declared above; anything else stops the configuration, so
# that the flow cannot turn round. PRIVATE_PACKAGES are third-party targets that
# only this module's sources see. fmt is private to every module.

set(levelswap_cmake_dir "${CMAKE_CURRENT_LIST_DIR}" CACHE INTERNAL "")
get_filename_component(cpp_dir "${CMAKE_CURRENT_LIST_DIR}" DIRECTORY)
set(levelswap_cpp_dir "${cpp_dir}" CACHE INTERNAL "")

# The compiler settings of every target of ours; third-party headers come from
# imported targets and are system headers to the compiler.
function(levelswap_compile_options target)
    target_compile_features(${target} PUBLIC cxx_std_20)
    set_target_properties(${target} PROPERTIES
        CXX_EXTENSIONS OFF POSITION_INDEPENDENT_CODE ON)
    # Intervals recover rounding errors term by term: no fused or reordered sums.
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -ffp-contract=off)
    if(LEVELSWAP_WERROR)
        target_compile_options(${target} PRIVATE -Werror)
    endif()
    if(LEVELSWAP_SANITIZE)
        target_compile_options(${target} PRIVATE
            -fsanitize=${LEVELSWAP_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
        target_link_options(${target} PUBLIC -fsanitize=${LEVELSWAP_SANITIZE})
    endif()
endfunction()

# The modules that `module` may include, itself among them.
function(levelswap_reachable module result)
    get_property(uses GLOBAL PROPERTY LEVELSWAP_USES_${module})
    set(reached ${module})
    foreach(used IN LISTS uses)
        get_property(further GLOBAL PROPERTY LEVELSWAP_REACHES_${used})
        list(APPEND reached ${further})
    endforeach()
    list(REMOVE_DUPLICATES reached)
    set_property(GLOBAL PROPERTY LEVELSWAP_REACHES_${module} ${reached})
    set(${result} ${reached} PARENT_SCOPE)
endfunction()

# A module that includes a header beyond its reach fails a test of its own name.
function(levelswap_test_includes module reached)
    if(NOT LEVELSWAP_TESTS)
        return()
    endif()
    list(JOIN reached "," reached)
    add_test(NAME "flow.${module}_includes_only_what_it_may_use"
        COMMAND ${CMAKE_COMMAND} -D CPP_DIR=${levelswap_cpp_dir} -D MODULE=${module}
                -D MAY_USE=${reached} -P ${levelswap_cmake_dir}/check_includes.cmake)
endfunction()

function(levelswap_module)
    cmake_parse_arguments(PARSE_ARGV 0 module "" "NAME" "USES;PRIVATE_PACKAGES")
    if(NOT module_NAME OR module_UNPARSED_ARGUMENTS)
        message(FATAL_ERROR "levelswap_module: NAME is missing, or cannot read '${module_UNPARSED_ARGUMENTS}'")
    endif()
    get_property(declared GLOBAL PROPERTY LEVELSWAP_MODULES)
    foreach(used IN LISTS module_USES)
        if(NOT used IN_LIST declared)
            message(FATAL_ERROR "module ${module_NAME} uses ${used}, which is not declared above it")
        endif()
    endforeach()
    set_property(GLOBAL APPEND PROPERTY LEVELSWAP_MODULES ${module_NAME})
    set_property(GLOBAL PROPERTY LEVELSWAP_USES_${module_NAME} ${module_USES})

    set(target levelswap_${module_NAME})
    set(uses ${module_USES})
    list(TRANSFORM uses PREPEND levelswap_)
    file(GLOB sources CONFIGURE_DEPENDS
        ${levelswap_cpp_dir}/src/${module_NAME}/*.cpp
        ${levelswap_cpp_dir}/src/${module_NAME}/families/*.cpp)
    if(sources)
        add_library(${target} STATIC ${sources})
        levelswap_compile_options(${target})
        target_include_directories(${target}
            PUBLIC ${levelswap_cpp_dir}/include
            PRIVATE ${levelswap_cpp_dir}/src)
        target_link_libraries(${target} PUBLIC ${uses} PRIVATE fmt::fmt ${module_PRIVATE_PACKAGES})
    else()
        add_library(${target} INTERFACE)
        target_compile_features(${target} INTERFACE cxx_std_20)
        target_include_directories(${target} INTERFACE ${levelswap_cpp_dir}/include)
        target_link_libraries(${target} INTERFACE ${uses})
    endif()
    levelswap_reachable(${module_NAME} reached)
    levelswap_test_includes(${module_NAME} "${reached}")
endfunction()
